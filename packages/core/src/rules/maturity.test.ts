/** Whether the tank is cycled and old enough: design section 5, `maturity`. */
import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import {
  checkBy,
  exact,
  type Loose,
  newcomer,
  onlyVerdict,
  range,
  recordWith,
  resident,
  situationWith,
  TANK,
} from '../../tests/support/scene.js';
import { dayOf, isoOf } from '../quantity/days.js';
import { maturity } from './maturity.js';

const CYCLED = '2027-01-01';
const after = (days: number): string => isoOf(dayOf(CYCLED) + days);

const aged = (tankAge: NonNullable<SpeciesRecord['needs']>['tankAge']): SpeciesRecord =>
  recordWith('unus-primus', { needs: tankAge === undefined ? {} : { tankAge } });

/** One that comes in on a day, into a tank cycled on another. */
const found = (record: SpeciesRecord, entry: string, cycledOn: string | undefined = CYCLED, more: Loose<Situation> = {}) =>
  checkBy(
    maturity,
    situationWith({
      tank: { ...TANK, ...(cycledOn === '' ? {} : { cycledOn }) },
      introductions: [{ date: entry, animals: [newcomer('unus-primus', 5)] }],
      ...more,
    }),
    [record],
  );
const verdict = (...args: Parameters<typeof found>): string => onlyVerdict(found(...args));

describe('a tank that is not cycled', () => {
  const plain = recordWith('unus-primus');

  it('by the day of entry is an error, from that day on it is not', () => {
    expect(found(plain, '2027-03-31', '2027-04-01').findings[0]).toMatchObject({
      key: 'maturity:animal=unus-primus',
      outcome: 'failed',
      level: 'error',
      message: 'maturity.notCycled',
      when: '2027-03-31',
      data: {
        day: { date: '2027-03-31' },
        cycled: { date: '2027-04-01' },
        firstDay: { date: '2027-04-01' },
        lacking: { value: 1, unit: 'd' },
      },
    });
    expect(verdict(plain, '2027-04-01', '2027-04-01')).toBe('passed');
  });

  it('of which nothing is told cannot be told, and would be an error', () => {
    expect(found(plain, '2027-04-01', '').findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'error',
      message: 'maturity.unknown',
      data: { missing: { keys: ['tank.cycledOn'] } },
      when: null,
    });
  });

  it('counts for residents as it is today', () => {
    const residents = [resident('unus-primus', 10, { enteredOn: '2026-12-01' })];
    expect(verdict(plain, CYCLED, CYCLED, { introductions: [], residents })).toBe('passed');
    expect(found(plain, CYCLED, '2027-03-02', { introductions: [], residents }).findings[0]).toMatchObject({
      level: 'error',
      message: 'maturity.notCycled',
      when: '2027-03-01',
      data: { resident: { keys: ['resident'] } },
    });
  });

  it('an animal that leaves before today is not asked for', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2027-02-20', animal: 'unus-primus' }];
    expect(verdict(plain, CYCLED, '', { introductions: [], residents: [resident('unus-primus', 10)], events })).toBe('nothing judged');
  });
});

describe('a tank that is too young', () => {
  it('fails with the days missing and the first day that would do', () => {
    const record = aged({ value: 180, unit: 'd', basis: 'practice' });
    expect(found(record, after(100)).findings[0]).toMatchObject({
      outcome: 'failed',
      level: 'warning',
      message: 'maturity.tooYoung',
      data: {
        wants: { value: 180, unit: 'd' },
        age: { value: 100, unit: 'd' },
        lacking: { value: 80, unit: 'd' },
        firstDay: { date: after(180) },
      },
      basis: 'practice',
    });
    expect(verdict(record, after(179))).toBe('failed warning maturity.tooYoung');
    expect(verdict(record, after(180))).toBe('passed');
  });

  it('within the upper part of a range it cannot be told', () => {
    const record = aged(range(100, 200, 'd'));
    expect(verdict(record, after(149))).toBe('failed warning maturity.tooYoung');
    expect(found(record, after(150)).findings[0]).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'maturity.mayBeTooYoung',
      data: { settle: { keys: ['needs.tankAge'] }, firstDay: { date: after(200) } },
    });
    expect(verdict(record, after(200))).toBe('passed');
  });

  it('years are read as years', () =>
    expect(found(aged(exact(1, 'a')), after(100)).findings[0]?.data.wants).toEqual({ value: 366, unit: 'd' }));

  it('anemones and copepod feeders have customary ages where their records do not tell; both are options', () => {
    const anemone = recordWith('unus-primus', { form: 'anemone' });
    const feeder = recordWith('unus-primus', { feeding: { specialist: { food: 'copepods', obligate: true, basis: 'practice' } } });
    expect([verdict(anemone, after(179)), verdict(anemone, after(180))]).toEqual(['failed warning maturity.tooYoung', 'passed']);
    expect([verdict(feeder, after(269)), verdict(feeder, after(270))]).toEqual(['failed warning maturity.tooYoung', 'passed']);
    const settings = { thresholds: { maturity: { anemoneDays: 100, copepodFeederDays: 120 } } };
    expect(verdict(anemone, after(100), CYCLED, { settings })).toBe('passed');
    expect([verdict(feeder, after(119), CYCLED, { settings }), verdict(feeder, after(120), CYCLED, { settings })]).toEqual([
      'failed warning maturity.tooYoung',
      'passed',
    ]);
    expect(verdict({ ...anemone, needs: { tankAge: exact(90, 'd') } }, after(90))).toBe('passed');
    expect(verdict(recordWith('unus-primus'), after(60))).toBe('passed');
  });

  it('counts for residents as it is today', () => {
    const residents = [resident('unus-primus', 10, { enteredOn: '2027-01-02' })];
    const [finding] = found(aged(exact(100, 'd')), CYCLED, CYCLED, { introductions: [], residents }).findings;
    expect(finding).toMatchObject({ message: 'maturity.tooYoung', data: { age: { value: 59 }, resident: { keys: ['resident'] } } });
  });

  it('what the keeper has accepted stays, marked', () => {
    const settings = { accepted: [{ key: 'maturity:animal=unus-primus', reason: 'rock from an old tank' }] };
    expect(found(aged(exact(180, 'd')), after(100), CYCLED, { settings }).findings[0]).toMatchObject({ accepted: 'rock from an old tank' });
  });
});
