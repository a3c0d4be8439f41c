/** Day numbers against the Date of ECMAScript (ECMA-262: days since 1970-01-01, proleptic Gregorian calendar). */
import { dayOf, isoOf } from '@commensal/core';
import { expect, it } from 'vitest';

const DAY_MS = 86_400_000;

it('every day from 1600 to 2400 has the number and the text that Date gives it', () => {
  const first = Date.UTC(1600, 0, 1) / DAY_MS;
  const last = Date.UTC(2400, 11, 31) / DAY_MS;
  // 801 years, of which 201 are multiples of four less the six centuries that 400 does not divide.
  expect(last - first + 1).toBe(801 * 365 + 201 - 6);
  const wrong: string[] = [];
  for (let day = first; day <= last; day += 1) {
    const iso = new Date(day * DAY_MS).toISOString().slice(0, 10);
    if (dayOf(iso) !== day || isoOf(day) !== iso) wrong.push(iso);
  }
  expect(wrong).toEqual([]);
});
