import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { minimalConflict } from './minimal-conflict.js';

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);

describe('minimalConflict', () => {
  it('is undefined where all is feasible, and empty where nothing is', () => {
    expect(minimalConflict([1, 2], () => true)).toBeUndefined();
    expect(minimalConflict([], () => true)).toBeUndefined();
    expect(minimalConflict([1, 2], () => false)).toEqual([]);
    expect(minimalConflict([], () => false)).toEqual([]);
  });

  it('names one that fails by itself alone', () => {
    expect(minimalConflict([1, 9, 2], (items) => !items.includes(9))).toEqual([9]);
  });

  /** Items 0 to 7, bad together where any of the rows is among them. */
  const rows = fc.array(fc.uniqueArray(fc.nat({ max: 7 }), { minLength: 1, maxLength: 5 }), { maxLength: 6 });
  const items = fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7]);

  it('fails as a whole, and not without any one of it; its last item comes as early as can be, and so on', () => {
    fc.assert(
      fc.property(rows, items, (bad, given) => {
        const isFeasible = (some: readonly number[]): boolean => !bad.some((row) => row.every((item) => some.includes(item)));
        const conflict = minimalConflict(given, isFeasible);
        if (conflict === undefined) {
          expect(isFeasible(given)).toBe(true);
          return;
        }
        expect(isFeasible(conflict)).toBe(false);
        for (const item of conflict) expect(isFeasible(conflict.filter((other) => other !== item))).toBe(true);
        // Read as binary numbers in which later items weigh more, it is the least of all sets that are not feasible.
        const weight = (some: readonly number[]): number => sum(some.map((item) => 2 ** given.indexOf(item)));
        const subsets = Array.from({ length: 2 ** given.length }, (_, mask) => given.filter((_item, at) => ((mask >>> at) & 1) === 1));
        const least = Math.min(...subsets.filter((some) => !isFeasible(some)).map(weight));
        expect(weight(conflict)).toBe(least);
        expect(conflict.map((item) => given.indexOf(item))).toEqual(conflict.map((item) => given.indexOf(item)).sort((a, b) => a - b));
      }),
      { numRuns: runs(1000) },
    );
  });

  it('finds a conflict of 2 among 1024 in at most 2k log2(n/k) + 2k questions, two to begin with, and rounding', () => {
    let asked = 0;
    const conflict = minimalConflict(
      Array.from({ length: 1024 }, (_, item) => item),
      (some) => {
        asked += 1;
        return !(some.includes(77) && some.includes(900));
      },
    );
    expect(conflict).toEqual([77, 900]);
    expect(asked).toBeLessThanOrEqual(2 * 2 * Math.log2(512) + 2 * 2 + 2 + 2);
  });
});
