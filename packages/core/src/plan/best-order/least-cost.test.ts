import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pairsCost, ranked, table } from '../../../../../tests/support/orders.js';
import { runs } from '../../../../../tests/support/runs.js';
import { leastCost } from './least-cost.js';

const costsOf = (count: number): fc.Arbitrary<number[][]> =>
  fc.array(
    fc.array(fc.oneof({ weight: 9, arbitrary: fc.nat(9) }, { weight: 1, arbitrary: fc.constant(Number.POSITIVE_INFINITY) }), {
      minLength: count,
      maxLength: count,
    }),
    {
      minLength: count,
      maxLength: count,
    },
  );

const best = (count: number, costs: readonly (readonly number[])[]): number =>
  ranked(count, (order) => pairsCost(order, table(costs)))[0]?.cost ?? Number.NaN;

describe('leastCost', () => {
  it('is never above the cheapest of all orders, nor below the cheaper directions of all pairs', () => {
    const seen = { reached: 0, below: 0, more: 0 };
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 6 }).chain((count) => costsOf(count)),
        (costs) => {
          const count = costs.length;
          const [least, cheapest] = [leastCost(count, table(costs)), best(count, costs)];
          const cost = table(costs);
          const pairs = costs.flatMap((_, one) =>
            costs.slice(one + 1).map((_, at) => Math.min(cost(one, one + 1 + at), cost(one + 1 + at, one))),
          );
          const sum = pairs.reduce((total, pair) => total + pair, 0);
          expect(least).toBeLessThanOrEqual(cheapest);
          expect(least).toBeGreaterThanOrEqual(sum);
          seen[least === cheapest ? 'reached' : 'below'] += 1;
          if (least > sum) seen.more += 1;
        },
      ),
      { numRuns: runs(300) },
    );
    expect(Math.min(seen.reached, seen.below, seen.more)).toBeGreaterThan(0);
  });

  it('is the cheapest order of three: where preferences go round, one of them has to give way', () => {
    fc.assert(
      fc.property(costsOf(3), (costs) => {
        expect(leastCost(3, table(costs))).toBe(best(3, costs));
      }),
      { numRuns: runs(300) },
    );
  });

  it('counts no pair twice', () => {
    // Four items, and two rounds that share the pair 0 before 1: giving way there ends both.
    const wish = [
      [0, 1],
      [1, 2],
      [2, 0],
      [1, 3],
      [3, 0],
    ];
    const cost = (before: number, after: number): number => (wish.some(([first, second]) => first === after && second === before) ? 5 : 0);
    expect(leastCost(4, cost)).toBe(5);
  });
});
