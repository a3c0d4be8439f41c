import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, newcomer, onlyVerdict, PEACEFUL, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { familyBatch } from './family-batch.js';

type Pugnacity = Partial<Record<'ownKind' | 'genus' | 'kin', number>>;

const kin = (id: string, pugnacity: Pugnacity | 'untold' = { ownKind: 2, genus: 2, kin: 2 }): SpeciesRecord =>
  recordWith(id, {
    kinGroup: { value: 'these', basis: 'practice' },
    conduct: pugnacity === 'untold' ? {} : { pugnacity: { ...PEACEFUL, ...pugnacity } },
  });

/** One goes in on the first day, the other on the second. */
const onDays = (
  first: string,
  second: string,
  ids: readonly [string, string] = ['unus-primus', 'duo-primus'],
  more: Partial<Situation> = {},
): Situation =>
  situationWith({
    introductions: [
      { date: first, animals: [newcomer(ids[0], 10, { id: 'first' })] },
      { date: second, animals: [newcomer(ids[1], 10, { id: 'second' })] },
    ],
    ...more,
  });

const BOTH = [kin('unus-primus'), kin('duo-primus')];

describe('family-batch', () => {
  it('kin that contest and go in on different days fail', () => {
    const [finding] = checkBy(familyBatch, onDays('2027-04-01', '2027-05-01'), BOTH).findings;
    expect(finding).toMatchObject({
      key: 'family-batch:earlier=first,later=second',
      outcome: 'failed',
      level: 'warning',
      message: 'family-batch.apart',
      when: '2027-05-01',
      data: { earlierDay: { date: '2027-04-01' }, laterDay: { date: '2027-05-01' }, kinGroup: { keys: ['these'] } },
    });
  });

  it('who is earlier goes by the day, not by the document', () => {
    const situation = onDays('2027-05-01', '2027-04-01');
    expect(checkBy(familyBatch, situation, BOTH).findings[0]?.key).toBe('family-batch:earlier=second,later=first');
  });

  it.each([
    ['on one day', onDays('2027-04-01', '2027-04-01'), BOTH, 'passed'],
    [
      'on rock re-laid that day',
      onDays('2027-04-01', '2027-05-01', undefined, { events: [{ kind: 'rock-relaid', date: '2027-05-01' }] }),
      BOTH,
      'passed',
    ],
    [
      'on rock re-laid the day before',
      onDays('2027-04-01', '2027-05-01', undefined, { events: [{ kind: 'rock-relaid', date: '2027-04-30' }] }),
      BOTH,
      'failed warning family-batch.apart',
    ],
    [
      'behind a divider',
      onDays('2027-04-01', '2027-05-01', undefined, { events: [{ kind: 'tank-divided', date: '2027-04-15', until: '2027-05-01' }] }),
      BOTH,
      'passed',
    ],
    [
      'once the divider is gone',
      onDays('2027-04-01', '2027-05-01', undefined, { events: [{ kind: 'tank-divided', date: '2027-04-15', until: '2027-04-30' }] }),
      BOTH,
      'failed warning family-batch.apart',
    ],
    ['strangers', onDays('2027-04-01', '2027-05-01'), [kin('unus-primus'), recordWith('duo-primus')], 'nothing judged'],
  ] as const)('%s', (_, situation, records, verdict) => {
    expect(onlyVerdict(checkBy(familyBatch, situation, records))).toBe(verdict);
  });

  it('it is enough that one of the two contests', () => {
    const records = [kin('unus-primus', {}), kin('duo-primus', { kin: 1 })];
    expect(onlyVerdict(checkBy(familyBatch, onDays('2027-04-01', '2027-05-01'), records))).toBe('failed warning family-batch.apart');
    expect(onlyVerdict(checkBy(familyBatch, onDays('2027-04-01', '2027-05-01'), [kin('unus-primus', {}), kin('duo-primus', {})]))).toBe(
      'passed',
    );
  });

  it.each([
    ['its own kind', { ownKind: 1 }, 'unus-primus', 'failed warning family-batch.apart'],
    ['its own kind', { genus: 4, kin: 4 }, 'unus-primus', 'passed'],
    ['its genus', { genus: 1 }, 'unus-alter', 'failed warning family-batch.apart'],
    ['its genus', { kin: 1 }, 'unus-alter', 'failed warning family-batch.apart'],
    ['its genus', { ownKind: 4 }, 'unus-alter', 'passed'],
    ['its kin', { kin: 1 }, 'duo-primus', 'failed warning family-batch.apart'],
    ['its kin', { ownKind: 4, genus: 4 }, 'duo-primus', 'passed'],
  ] as const)('to %s with %j beside %s: %s', (_, pugnacity, other, verdict) => {
    const records = [kin('unus-primus', pugnacity), ...(other === 'unus-primus' ? [] : [kin(other, {})])];
    expect(onlyVerdict(checkBy(familyBatch, onDays('2027-04-01', '2027-05-01', ['unus-primus', other]), records))).toBe(verdict);
  });

  it('cannot tell where nothing is known of one and the other keeps the peace', () => {
    const checked = checkBy(familyBatch, onDays('2027-04-01', '2027-05-01'), [kin('unus-primus', 'untold'), kin('duo-primus', {})]);
    expect(onlyVerdict(checked)).toBe('cantTell warning family-batch.unknown');
    expect(checked.findings[0]?.data.missing).toEqual({ keys: ['conduct.pugnacity'] });
  });

  it('one that is known to contest is enough, whatever the other does', () => {
    const records = [kin('unus-primus', 'untold'), kin('duo-primus')];
    expect(onlyVerdict(checkBy(familyBatch, onDays('2027-04-01', '2027-05-01'), records))).toBe('failed warning family-batch.apart');
  });

  it('residents among themselves have settled it; a newcomer among them has not', () => {
    const residents = [resident('unus-primus', 10, { enteredOn: '2027-01-01' }), resident('duo-primus', 10)];
    expect(onlyVerdict(checkBy(familyBatch, situationWith({ residents }), BOTH))).toBe('nothing judged');
    const introductions = [{ date: '2027-04-01', animals: [newcomer('duo-primus', 10, { id: 'late' })] }];
    const keys = checkBy(familyBatch, situationWith({ residents, introductions }), BOTH).findings.map(({ key }) => key);
    expect(keys).toEqual(['family-batch:earlier=duo-primus,later=late', 'family-batch:earlier=unus-primus,later=late']);
  });

  it('one that has left is in nobody’s way', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2027-05-01', animal: 'first' }];
    expect(onlyVerdict(checkBy(familyBatch, onDays('2027-04-01', '2027-05-01', undefined, { events }), BOTH))).toBe('nothing judged');
  });

  it('from which pugnacity on kin contest is a setting', () => {
    const settings = { thresholds: { 'family-batch': { contestFrom: 3 } } };
    expect(onlyVerdict(checkBy(familyBatch, onDays('2027-04-01', '2027-05-01', undefined, { settings }), BOTH))).toBe('passed');
  });
});
