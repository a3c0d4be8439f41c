import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fitsAll, pairsCost, ranked, table } from '../../../../../tests/support/orders.js';
import { runs } from '../../../../../tests/support/runs.js';
import type { Meets } from '../any-order.js';
import { bestOrder } from '../best-order.js';
import { placesLeft } from './places-left.js';
import type { Fits } from './search.js';

it('leads to the order that is the cheapest of all in which nothing meets what it must not', () => {
  const instance = fc.integer({ min: 1, max: 6 }).chain((count) => {
    const place = fc.nat(count - 1);
    return fc.record({
      count: fc.constant(count),
      costs: fc.array(fc.array(fc.nat(9), { minLength: count, maxLength: count }), { minLength: count, maxLength: count }),
      // Item, position, other item, its position.
      meetings: fc.array(fc.tuple(place, place, place, place), { maxLength: 40 }),
    });
  });
  const seen = { some: 0, none: 0 };
  fc.assert(
    fc.property(instance, ({ count, costs, meetings }) => {
      const keys = new Set(meetings.map(String));
      const meets: Meets = (item, position, other, otherPosition) =>
        keys.has(String([item, position, other, otherPosition])) || keys.has(String([other, otherPosition, item, position]));
      const asTold: Fits = (item, position, placed) =>
        !meets(item, position, item, position) && placed.every((other, at) => !meets(item, position, other, at));
      const [best] = ranked(
        count,
        (order) => pairsCost(order, table(costs)),
        (order) => fitsAll(order, asTold),
      );
      seen[best === undefined ? 'none' : 'some'] += 1;
      const { fits, left } = placesLeft(count, meets);
      const cost = best?.cost ?? Number.POSITIVE_INFINITY;
      expect(bestOrder(count, table(costs), fits, undefined, left)).toEqual({ order: best?.order, cost, atLeast: cost, exact: true });
    }),
    { numRuns: runs(300) },
  );
  expect(Math.min(seen.some, seen.none)).toBeGreaterThan(0);
});

it('asks for each meeting once', () => {
  const asked: string[] = [];
  const meets: Meets = (...places) => {
    asked.push(places.join());
    return false;
  };
  const { fits, left } = placesLeft(3, meets);
  for (let time = 0; time < 2; time += 1) {
    expect(left(2, [0, 1])).toBe(0b100);
    expect(fits(2, 2, [0, 1])).toBe(true);
  }
  expect(asked.length).toBeGreaterThan(0);
  expect(new Set(asked).size).toBe(asked.length);
});

it('refuses more items than a number has bits', () => {
  expect(() => placesLeft(32, () => false)).toThrow(new RangeError('placesLeft: expected at most 31 items, received 32'));
});
