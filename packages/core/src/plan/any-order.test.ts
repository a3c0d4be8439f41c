import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { anyOrder, bySwaps, type Meets } from './any-order.js';

function* permutations(count: number, placed: readonly number[] = []): Generator<readonly number[]> {
  if (placed.length === count) yield placed;
  for (let item = 0; item < count; item += 1) if (!placed.includes(item)) yield* permutations(count, [...placed, item]);
}

const isClear = (order: readonly number[], meets: Meets): boolean =>
  order.every(
    (item, position) =>
      !meets(item, position, item, position) && order.every((other, at) => at <= position || !meets(item, position, other, at)),
  );

/** Items that must not stand somewhere, and pairs of which the one must come so many places before the other. */
const obstacles = fc.record({
  barred: fc.array(fc.tuple(fc.nat(5), fc.nat(5)), { maxLength: 8 }),
  before: fc.array(fc.tuple(fc.nat(5), fc.nat(5), fc.integer({ min: 1, max: 3 })), { maxLength: 4 }),
});

const meetsOf = ({ barred, before }: typeof obstacles extends fc.Arbitrary<infer Value> ? Value : never): Meets => {
  const apart = (item: number, position: number, other: number, at: number): boolean =>
    before.some(([first, second, lead]) => first !== second && first === item && second === other && at < position + lead);
  return (item, position, other, at) =>
    item === other
      ? barred.some(([who, where]) => who === item && where === position)
      : apart(item, position, other, at) || apart(other, at, item, position);
};

describe('anyOrder', () => {
  it('finds an order exactly where trying all of them does', () => {
    let none = 0;
    fc.assert(
      fc.property(obstacles, fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 }), (drawn, wish) => {
        const meets = meetsOf(drawn);
        const { order, exact } = anyOrder(wish, meets);
        const possible = [...permutations(6)].some((tried) => isClear(tried, meets));
        expect(exact).toBe(true);
        expect(order !== undefined).toBe(possible);
        if (order === undefined) none += 1;
        else expect(isClear(order, meets)).toBe(true);
      }),
      { numRuns: runs(300) },
    );
    expect(none).toBeGreaterThan(0);
  });

  it('is what was wished for where nothing stands against it', () => {
    expect(anyOrder([3, 1, 0, 2], () => false)).toEqual({ order: [3, 1, 0, 2], exact: true });
    expect(anyOrder([], () => true)).toEqual({ order: [], exact: true });
  });

  it('sees at once that more want the first places than there are', () => {
    // Twelve of twenty-four want one of the first eleven places: 24!/12! orders would have to be tried one by one.
    const wish = Array.from({ length: 24 }, (_, item) => item);
    expect(anyOrder(wish, (item, position, other) => item === other && item < 12 && position > 10)).toEqual({
      order: undefined,
      exact: true,
    });
    expect(anyOrder(wish, (item, position, other) => item === other && item < 12 && position < 13)).toEqual({
      order: undefined,
      exact: true,
    });
  });
});

describe('bySwaps', () => {
  it('is never dearer, fits, and no change of two places helps any more', () => {
    const size = 6;
    const costs = fc.array(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: size, maxLength: size }), {
      minLength: size,
      maxLength: size,
    });
    fc.assert(
      fc.property(costs, fc.nat(size - 1), fc.nat(size - 1), (table, first, second) => {
        const cost = (before: number, after: number): number => table[before]?.[after] ?? 0;
        const costOf = (order: readonly number[]): number =>
          order.reduce((sum, item, at) => sum + order.slice(0, at).reduce((part, before) => part + cost(before, item), 0), 0);
        const fits = (order: readonly number[]): boolean => order.indexOf(first) <= order.indexOf(second);
        const start = [first, ...[0, 1, 2, 3, 4, 5].filter((item) => item !== first)];
        const order = bySwaps(start, cost, fits);
        expect([...order].sort()).toEqual([0, 1, 2, 3, 4, 5]);
        expect(fits(order)).toBe(true);
        expect(costOf(order)).toBeLessThanOrEqual(costOf(start));
        for (let one = 0; one < size; one += 1) {
          for (let other = one + 1; other < size; other += 1) {
            const changed = order.map((item, at) => (at === one ? (order[other] as number) : at === other ? (order[one] as number) : item));
            if (fits(changed)) expect(costOf(changed)).toBeGreaterThanOrEqual(costOf(order));
          }
        }
      }),
      { numRuns: runs(300) },
    );
  });
});
