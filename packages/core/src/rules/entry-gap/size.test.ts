import type { Situation } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, newcomer, onlyVerdict, recordWith, resident, situationWith, verdictOf } from '../../../tests/support/scene.js';
import { entryGap } from './entry-gap.js';

const records = [
  recordWith('unus-primus'),
  recordWith('duo-primus'),
  recordWith('cancer-primus', { form: 'crab' }),
  recordWith('ignotus-primus', { size: {}, growth: {} }),
];

/** Residents of a year ago and a batch on a day; all of a size weigh the same. */
const batch = (there: number, coming: number, date = '2027-05-01', species = 'duo-primus'): Situation =>
  situationWith({
    residents: there === 0 ? [] : [resident('unus-primus', 10, { count: there, enteredOn: '2026-03-01' })],
    introductions: [{ date, animals: [newcomer(species, 10, { count: coming })] }],
  });

const verdicts = (situation: Situation): string[] => checkBy(entryGap, situation, records).findings.map(verdictOf);

describe('a large batch', () => {
  it.each([
    [4, 4, 'passed'],
    [4, 5, 'failed warning entry-gap.largeBatch'],
  ])('to %i fish %i more of a size: %s', (there, coming, verdict) => {
    expect(onlyVerdict(checkBy(entryGap, batch(there, coming), records))).toBe(verdict);
  });

  it('tells the food before and after, under a key of its own', () => {
    const [finding] = checkBy(entryGap, batch(2, 6), records).findings;
    expect(finding).toMatchObject({
      key: 'entry-gap:added=duo-primus',
      when: '2027-05-01',
      data: { feedBefore: { unit: 'g' }, feedAfter: { unit: 'g' } },
    });
    // Six to two: four times as much; either figure is rounded to two digits.
    expect((finding?.data.feedAfter?.value ?? 0) / (finding?.data.feedBefore?.value ?? 1)).toBeCloseTo(4, 0);
  });

  it('crabs and the like live on leavings', () => {
    expect(verdicts(batch(1, 30, '2027-05-01', 'cancer-primus'))).toEqual([]);
  });

  it('beside what is not fed it is a first batch', () => {
    const situation = situationWith({
      residents: [resident('cancer-primus', 3, { enteredOn: '2026-03-01' })],
      introductions: [{ date: '2027-05-01', animals: [newcomer('duo-primus', 10, { count: 6 })] }],
    });
    expect(verdicts(situation)).toEqual([]);
  });

  it('cannot be told without a length, and says so', () => {
    const situation = situationWith({
      residents: [{ id: 'who', species: 'ignotus-primus', enteredOn: '2026-03-01' }],
      introductions: [{ date: '2027-05-01', animals: [newcomer('duo-primus', 10)] }],
    });
    const checked = checkBy(entryGap, situation, records);
    expect(onlyVerdict(checked)).toBe('cantTell note entry-gap.sizeUnknown');
    expect(checked.findings[0]).toMatchObject({
      key: 'entry-gap:added=duo-primus,unmeasured=who',
      data: { missing: { keys: ['length'] } },
    });
  });

  it('how large is a setting', () => {
    const settings = { thresholds: { 'entry-gap': { largeShare: 0.8 } } };
    expect(verdicts({ ...batch(4, 5), settings })).toEqual([]);
  });
});
