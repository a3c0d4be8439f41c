import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, newcomer, onlyVerdict, PEACEFUL, recordWith, resident, situationWith, verdictOf } from '../../tests/support/scene.js';
import { entryOrder } from './entry-order.js';

const like = (
  id: string,
  pugnacity: { others?: number; newcomers?: number } | 'untold',
  role: 'scavenger' | 'ordinary' = 'ordinary',
): SpeciesRecord =>
  recordWith(id, {
    conduct: pugnacity === 'untold' ? {} : { pugnacity: { ...PEACEFUL, ...pugnacity } },
    introduction: { value: role, basis: 'recalled' },
  });

const PEACE = like('pax-primus', {});
const FIERCE = like('ira-primus', { others: 3 });
const UNTOLD = like('nox-primus', 'untold');
const SCAVENGER = like('mus-primus', {}, 'scavenger');
const ALL = [PEACE, FIERCE, UNTOLD, SCAVENGER, like('ira-alter', { others: 3 })];

/** One species a day, a month apart. */
const inOrder = (species: readonly string[], more: Partial<Situation> = {}): Situation =>
  situationWith({ introductions: species.map((id, month) => ({ date: `2027-0${4 + month}-01`, animals: [newcomer(id, 10)] })), ...more });

const verdicts = (situation: Situation, records: readonly SpeciesRecord[] = ALL): string[] =>
  checkBy(entryOrder, situation, records).findings.map(verdictOf);

describe('entry-order', () => {
  it.each([
    [['pax-primus', 'ira-primus'], []],
    [['ira-primus', 'pax-primus'], ['failed warning entry-order.pugnaciousEarly']],
    [['ira-primus', 'ira-alter'], []],
    [['ira-primus', 'nox-primus'], ['failed warning entry-order.pugnaciousEarly']],
    [['nox-primus', 'pax-primus'], ['cantTell warning entry-order.unknown']],
    [['nox-primus', 'ira-primus'], []],
    [['mus-primus', 'pax-primus'], []],
    [['pax-primus', 'mus-primus'], ['failed note entry-order.scavengerLate']],
    [['ira-primus', 'mus-primus'], ['failed note entry-order.scavengerLate']],
  ])('%j: %j', (species, expected) => {
    expect(verdicts(inOrder(species))).toEqual(expected);
  });

  it.each([
    [{ others: 2 }, 0],
    [{ others: 3 }, 1],
    [{ newcomers: 1 }, 0],
    [{ newcomers: 2 }, 1],
  ])('%j is pugnacious or not: %i', (pugnacity, count) => {
    expect(verdicts(inOrder(['ira-primus', 'pax-primus']), [like('ira-primus', pugnacity), PEACE])).toHaveLength(count);
  });

  it('names whom it wrongs, and since when', () => {
    const [finding] = checkBy(entryOrder, inOrder(['ira-primus', 'pax-primus', 'nox-primus']), ALL).findings;
    expect(finding).toMatchObject({
      key: 'entry-order:pugnacious=ira-primus,after=nox-primus,after=pax-primus',
      subjects: [
        { id: 'ira-primus', role: 'pugnacious' },
        { id: 'pax-primus', role: 'after' },
        { id: 'nox-primus', role: 'after' },
      ],
      when: '2027-04-01',
      data: { day: { date: '2027-04-01' } },
    });
    const [late] = checkBy(entryOrder, inOrder(['pax-primus', 'mus-primus']), ALL).findings;
    expect(late).toMatchObject({ key: 'entry-order:scavenger=mus-primus,before=pax-primus', when: '2027-05-01', basis: 'recalled' });
  });

  it('names what is missing', () => {
    expect(checkBy(entryOrder, inOrder(['nox-primus', 'pax-primus']), ALL).findings[0]?.data.missing).toEqual({
      keys: ['conduct.pugnacity'],
    });
  });

  it('a pugnacious resident is an early settler, whether or not its day is known', () => {
    for (const enteredOn of [undefined, '2027-01-15']) {
      const residents = [resident('ira-primus', 10, enteredOn === undefined ? {} : { enteredOn })];
      const [finding] = checkBy(entryOrder, inOrder(['pax-primus'], { residents }), ALL).findings;
      expect(finding).toMatchObject({
        message: 'entry-order.earlySettler',
        subjects: [{ role: 'settler' }, { role: 'after' }],
        when: enteredOn ?? null,
      });
    }
  });

  it('one that has left by then wrongs nobody', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2027-05-01', animal: 'ira-primus' }];
    expect(verdicts(inOrder(['ira-primus', 'pax-primus'], { events }))).toEqual([]);
  });

  it('on one day nobody is first', () => {
    const introductions = [{ date: '2027-04-01', animals: ALL.map(({ id }) => newcomer(id, 10)) }];
    expect(onlyVerdict(checkBy(entryOrder, situationWith({ introductions }), ALL))).toBe('passed');
  });

  it('what counts as pugnacious is a setting', () => {
    const settings = { thresholds: { 'entry-order': { pugnaciousToOthers: 4 } } };
    expect(verdicts(inOrder(['ira-primus', 'pax-primus'], { settings }))).toEqual([]);
  });
});
