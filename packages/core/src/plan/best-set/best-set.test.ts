import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../../tests/support/runs.js';
import { type Held, setsByForce } from '../../../../../tests/support/sets-by-force.js';
import { bestSet, type Said, type SetProblem } from './index.js';

/** Small problems of every kind of constraint; whole values, and decimals of which sums are rounded. */
const problems: fc.Arbitrary<SetProblem> = fc.integer({ min: 0, max: 9 }).chain((count) => {
  const option = fc.nat({ max: Math.max(0, count - 1) });
  const options = (most: number): fc.Arbitrary<number[]> => (count === 0 ? fc.constant([]) : fc.array(option, { maxLength: most }));
  const numbers = fc.oneof(
    fc.array(fc.nat({ max: 6 }), { minLength: count, maxLength: count }),
    fc.array(fc.constantFrom(0, 0.1, 0.2, 0.3, 0.7, 1.1), { minLength: count, maxLength: count }),
    fc.array(fc.constantFrom(0, 1, 1e6, 1e6 + 1, 3e14, 3e14 + 1), { minLength: count, maxLength: count }),
  );
  const most = fc.oneof(fc.nat({ max: 12 }), fc.constantFrom(0.3, 0.6, 1.2, 1e6, 6e14, -1));
  const limit = fc.record(
    { uses: numbers, most, only: option },
    { requiredKeys: count === 0 || option === undefined ? ['uses', 'most'] : ['uses', 'most'] },
  );
  const pairs = fc.array(fc.tuple(option, option), { maxLength: count });
  return fc.record({
    values: numbers,
    groups: fc.array(options(3), { maxLength: 3 }),
    conflicts: count === 0 ? fc.constant([]) : pairs,
    limits: count === 0 ? fc.constant([]) : fc.array(limit, { maxLength: 4 }),
    musts: fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, { weight: 2, arbitrary: fc.array(options(4), { maxLength: 3 }) }),
  });
});

const keyOf = (options: readonly number[]): string => options.join(' ');

describe('without a last word', () => {
  it('finds what trying all sets finds', () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const sets = setsByForce(problem);
        const found = bestSet(problem);
        expect(found.proven).toBe(true);
        expect(found.value).toBe(sets[0]?.value ?? Number.NEGATIVE_INFINITY);
        expect(found.bound).toBe(found.value);
        if (sets.length === 0) expect(found.options).toBeUndefined();
        else expect(sets.map(({ options }) => keyOf(options))).toContain(keyOf(found.options ?? []));
      }),
      { numRuns: runs(3000) },
    );
  });
});

describe('with a last word', () => {
  /** Words on sets by a hidden table: some sets are turned down alone, and some options are not together. */
  const words = fc.record({
    share: fc.integer({ min: 0, max: 100 }),
    seed: fc.nat({ max: 1000 }),
    bad: fc.array(fc.uniqueArray(fc.nat({ max: 8 }), { maxLength: 4 }), { maxLength: 4 }),
    isTied: fc.boolean(),
  });

  const isDown = (options: readonly number[], share: number, seed: number): boolean =>
    (options.reduce((sum, option) => (sum * 31 + option + 7) % 10007, seed + 11) * 53) % 100 < share;

  it('offers each set once, finds the best that is taken, and all equals where they are wanted', () => {
    fc.assert(
      fc.property(problems, words, (problem, { share, seed, bad, isTied }) => {
        const sets = setsByForce(problem);
        const isBad = (options: readonly number[]): readonly number[] | undefined =>
          bad.find((row) => row.every((option) => options.includes(option)));
        const fine = sets.filter(({ options }) => isBad(options) === undefined && !isDown(options, share, seed));
        const offered: Held[] = [];
        const learnt: (readonly number[])[] = [];
        let best = Number.NEGATIVE_INFINITY;
        const say = (options: readonly number[], value: number): Said => {
          offered.push({ options, value });
          expect(isTied ? value >= best : value > best).toBe(true);
          expect(learnt.some((row) => row.every((option) => options.includes(option)))).toBe(false);
          const row = isBad(options);
          if (row !== undefined) {
            learnt.push(row);
            return row;
          }
          if (isDown(options, share, seed)) return 'not-this';
          best = value;
          return 'taken';
        };
        const found = bestSet(problem, { say, ties: () => isTied });
        const keys = offered.map(({ options }) => keyOf(options));
        expect(new Set(keys).size).toBe(keys.length);
        const all = new Map(sets.map(({ options, value }) => [keyOf(options), value]));
        for (const { options, value } of offered) expect(all.get(keyOf(options))).toBe(value);
        expect(found).toMatchObject({ proven: true, value: fine[0]?.value ?? Number.NEGATIVE_INFINITY });
        expect(found.bound).toBe(found.value);
        if (isTied) for (const { options, value } of fine) if (value === found.value) expect(keys).toContain(keyOf(options));
      }),
      { numRuns: runs(3000) },
    );
  });
});
