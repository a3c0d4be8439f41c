import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { dayOf, isoOf } from './days.js';

const FIRST = dayOf('1600-01-01');
const LAST = dayOf('2400-12-31');

describe('dayOf and isoOf', () => {
  it.each([
    ['1970-01-01', 0],
    ['1969-12-31', -1],
    ['2000-01-01', 10957],
    ['2000-02-29', 11016],
    ['2024-02-29', 19782],
    ['2027-03-01', 20878],
  ])('%s is day %d', (iso, day) => {
    expect(dayOf(iso)).toBe(day);
    expect(isoOf(day)).toBe(iso);
  });

  it.each([
    [1900, 28],
    [2000, 29],
    [2023, 28],
    [2024, 29],
    [2100, 28],
  ])('February of %d has %d days', (year, days) => {
    expect(dayOf(`${year}-03-01`) - dayOf(`${year}-02-01`)).toBe(days);
    expect(isoOf(dayOf(`${year}-03-01`) - 1)).toBe(`${year}-02-${days}`);
  });

  it('one day follows another, and each comes back as itself', () => {
    fc.assert(
      fc.property(fc.integer({ min: FIRST, max: LAST }), (day) => {
        expect(dayOf(isoOf(day))).toBe(day);
        expect(isoOf(day) < isoOf(day + 1)).toBe(true);
      }),
      { numRuns: runs(500) },
    );
  });

  it('drops parts of a day, before 1970 too', () => {
    expect(isoOf(20878.999)).toBe('2027-03-01');
    expect(isoOf(-0.5)).toBe('1969-12-31');
  });

  it.each(['', 'soon', '2027-3-1', '2027-03-01T00:00', ' 2027-03-01', '20270301'])('throws for "%s", which is no date', (text) => {
    expect(() => dayOf(text)).toThrow(new RangeError(`dayOf: expected a date like 2027-03-01, received "${text}"`));
  });

  it.each(['2027-02-29', '1900-02-29', '2027-04-31', '2027-13-01', '2027-00-10', '2027-01-00', '2027-01-32'])(
    'throws for %s, a day that the calendar does not have',
    (text) => {
      expect(() => dayOf(text)).toThrow(new RangeError(`dayOf: expected a day of the calendar, received "${text}"`));
    },
  );
});
