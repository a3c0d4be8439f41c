import fc from 'fast-check';
import { expect, it } from 'vitest';
import { moved, pairsCost, table } from '../../../../../tests/support/orders.js';
import { runs } from '../../../../../tests/support/runs.js';
import { byInsertions } from './by-insertions.js';

it('fits as before, costs no more, and moving any one item does not make it cheaper and fit', () => {
  const seen = { moved: 0, held: 0 };
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.nat(9), { minLength: 6, maxLength: 6 }), { minLength: 6, maxLength: 6 }),
      fc.array(fc.tuple(fc.nat(5), fc.nat(5)), { maxLength: 4 }),
      (costs, pairs) => {
        const start = [0, 1, 2, 3, 4, 5];
        const arcs = pairs.filter(([first, second]) => first < second);
        const fits = (order: readonly number[]): boolean => arcs.every(([first, second]) => order.indexOf(first) < order.indexOf(second));
        const costOf = (order: readonly number[]): number => pairsCost(order, table(costs));
        const found = byInsertions(start, table(costs), fits);
        expect([...found].sort((one, other) => one - other)).toEqual(start);
        expect(fits(found)).toBe(true);
        expect(costOf(found)).toBeLessThanOrEqual(costOf(start));
        if (costOf(found) < costOf(start)) seen.moved += 1;
        for (const from of start) {
          for (const to of start) {
            const changed = moved(found, from, to);
            if (costOf(changed) >= costOf(found)) continue;
            seen.held += 1;
            expect(fits(changed)).toBe(false);
          }
        }
      },
    ),
    { numRuns: runs(200) },
  );
  expect(Math.min(seen.moved, seen.held)).toBeGreaterThan(0);
});
