import type { Situation } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, newcomer, onlyVerdict, recordWith, resident, situationWith } from '../../../tests/support/scene.js';
import { entryGap } from './entry-gap.js';

const RECORDS = [recordWith('unus-primus')];

const onDays = (dates: readonly string[], more: Partial<Situation> = {}): Situation =>
  situationWith({
    introductions: dates.map((date, index) => ({ date, animals: [newcomer('unus-primus', 10, { id: `n${index}` })] })),
    ...more,
  });

describe('entry-gap', () => {
  it.each([
    [['2027-04-01'], 'nothing judged'],
    [['2027-04-01', '2027-04-29'], 'passed'],
    [['2027-04-29', '2027-04-01'], 'passed'],
    [['2027-04-01', '2027-04-28'], 'failed warning entry-gap.tooClose'],
    [['2027-04-01', '2027-04-01'], 'nothing judged'],
  ])('batches on %j: %s', (dates, verdict) => {
    expect(onlyVerdict(checkBy(entryGap, onDays(dates), RECORDS))).toBe(verdict);
  });

  it('tells both days and the earliest that would do', () => {
    const { findings } = checkBy(entryGap, onDays(['2027-04-01', '2027-04-21', '2027-04-21']), RECORDS);
    const finding = findings.find(({ message }) => message === 'entry-gap.tooClose');
    expect(finding).toMatchObject({
      key: 'entry-gap:newcomer=n1,newcomer=n2',
      when: '2027-04-21',
      basis: 'practice',
      data: {
        gap: { value: 20, unit: 'd' },
        needed: { value: 28, unit: 'd' },
        day: { date: '2027-04-21' },
        dayBefore: { date: '2027-04-01' },
        earliest: { date: '2027-04-29' },
      },
    });
  });

  it('the day on which a resident went in counts as well, and among residents nothing is asked', () => {
    const residents = [
      resident('unus-primus', 10, { id: 'a', enteredOn: '2027-02-20' }),
      resident('unus-primus', 10, { id: 'b', enteredOn: '2027-02-25' }),
    ];
    expect(onlyVerdict(checkBy(entryGap, onDays([], { residents }), RECORDS))).toBe('nothing judged');
    expect(checkBy(entryGap, onDays(['2027-03-10'], { residents }), RECORDS).findings[0]?.data.dayBefore).toEqual({
      date: '2027-02-25',
    });
  });

  it('the gap is a setting', () => {
    const settings = { thresholds: { 'entry-gap': { gapDays: 14 } } };
    expect(onlyVerdict(checkBy(entryGap, onDays(['2027-04-01', '2027-04-15'], { settings }), RECORDS))).toBe('passed');
    expect(onlyVerdict(checkBy(entryGap, onDays(['2027-04-01', '2027-04-14'], { settings }), RECORDS))).toBe(
      'failed warning entry-gap.tooClose',
    );
  });
});
