import { describe, expect, it } from 'vitest';
import { documents } from '../source/index.js';
import { DAYS, documentProblems, duplicateProblems } from './document-problems.js';

/** The names of the properties whose schema, or a branch of it, asks for a day. */
function dayNames(node: unknown): string[] {
  if (typeof node !== 'object' || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) => {
    if (key !== 'properties') return dayNames(value);
    return Object.entries(value as object).flatMap(([name, part]) => [
      ...(JSON.stringify(part).includes('[12][0-9]|3[01]') && !('properties' in Object(part)) ? [name] : []),
      ...dayNames(part),
    ]);
  });
}

const codes = (document: unknown): string[] => documentProblems(document).map(({ code, pointer }) => `${code} ${pointer}`);

describe('documentProblems', () => {
  it('looks at every property that holds a day', () => {
    const names = new Set(dayNames(documents));
    expect(names.size).toBeGreaterThan(0);
    expect([...names].sort()).toEqual([...DAYS].sort());
  });

  it('knows the calendar', () => {
    for (const day of ['2027-02-28', '2028-02-29', '2000-02-29', '2027-12-31', '2027-04-30']) expect(codes({ date: day }), day).toEqual([]);
    for (const day of ['2027-02-29', '2027-02-30', '1900-02-29', '2027-06-31'])
      expect(codes({ date: day }), day).toEqual(['no-such-day /date']);
  });

  it('takes ends that are equal, and a value on an end', () => {
    expect(
      codes([
        { low: 2, high: 2, value: 2 },
        { low: 1, high: 2, value: 1 },
        { low: 1, high: 2, value: 2 },
        { value: 7 },
        { low: 1, high: 2 },
      ]),
    ).toEqual([]);
  });

  it('says one thing of a band that is upside down', () => {
    expect(codes({ tank: { water: { low: 3, value: 2, high: 1 } } })).toEqual(['band-order /tank/water/low']);
  });

  it('leaves extensions alone', () => {
    expect(codes({ extensions: { vendor: { low: 3, high: 1, date: '2027-02-30' } }, tank: { extensions: { low: 3, high: 1 } } })).toEqual([
      'band-order /tank/extensions/low',
    ]);
  });

  it('says what was found', () => {
    expect(documentProblems({ date: '2027-02-30' })).toEqual([
      {
        code: 'no-such-day',
        pointer: '/date',
        found: 'date is "2027-02-30"',
        allowed: 'the month has fewer days',
        fix: 'Give a day that is in the calendar.',
      },
    ]);
  });
});

describe('duplicateProblems', () => {
  it('points to the later one and names the first', () => {
    const identities = ['a', 'b', 'a', 'a'].map((id, index) => ({ id, pointer: `/${index}` }));
    expect(duplicateProblems(identities, 'Change one.').map(({ found }) => found)).toEqual([
      '[2] and [0] are both "a"',
      '[3] and [0] are both "a"',
    ]);
  });
});
