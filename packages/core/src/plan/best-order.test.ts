import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedAt, fitsAll, lagLimits, moved, pairsCost, permutations, ranked, table } from '../../../../tests/support/orders.js';
import { runs } from '../../../../tests/support/runs.js';
import { bestOrder, cheapestOrder, EXACT_UP_TO } from './best-order.js';
import { cheapestRest } from './best-order/cheapest-rest.js';
import { priceOfPairs } from './best-order/price-of-pairs.js';
import type { Fits } from './best-order/search.js';

const anywhere: Fits = () => true;

/** Every order tried: the cheapest that fits, the first of them in alphabetical order. */
function byForce(count: number, cost: (before: number, after: number) => number, fits: Fits) {
  const [best] = ranked(
    count,
    (order) => pairsCost(order, cost),
    (order) => fitsAll(order, fits),
  );
  return best ?? { order: undefined, cost: Number.POSITIVE_INFINITY };
}

/** Every order that moving one item or changing two makes of it. */
function* neighboursOf(order: readonly number[]): Generator<readonly number[]> {
  for (let from = 0; from < order.length; from += 1) {
    for (let to = 0; to < order.length; to += 1) {
      yield moved(order, from, to);
      yield changedAt(order, from, to);
    }
  }
}

const costsOf = (count: number, cost: fc.Arbitrary<number>): fc.Arbitrary<number[][]> =>
  fc.array(fc.array(cost, { minLength: count, maxLength: count }), { minLength: count, maxLength: count });

describe('bestOrder', () => {
  it('equals the cheapest of all orders, and the first of them, with any costs and obstacles', () => {
    const instance = fc.integer({ min: 0, max: 7 }).chain((count) =>
      fc.record({
        count: fc.constant(count),
        // Few different costs, so that orders tie; whole numbers, so that sums are exact.
        costs: costsOf(count, fc.integer({ min: 0, max: 4 })),
        // An item kept from positions, and from standing behind others.
        barred: fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { maxLength: 6 }),
        notBehind: fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { maxLength: 6 }),
      }),
    );
    let without = 0;
    fc.assert(
      fc.property(instance, ({ count, costs, barred, notBehind }) => {
        const fits: Fits = (item, position, placed) =>
          !barred.some(([who, where]) => who === item && where === position) &&
          !notBehind.some(([who, whom]) => who === item && who !== whom && placed.includes(whom));
        const expected = byForce(count, table(costs), fits);
        if (expected.order === undefined) without += 1;
        expect(bestOrder(count, table(costs), fits)).toEqual({ ...expected, atLeast: expected.cost, exact: true });
      }),
      { numRuns: runs(400) },
    );
    expect(without).toBeGreaterThan(0);
  });

  it('what has the last word on whole orders is obeyed, and the rest stays cheapest', () => {
    fc.assert(
      fc.property(
        costsOf(5, fc.integer({ min: 0, max: 9 })),
        fc.array(fc.nat(4), { minLength: 2, maxLength: 2 }),
        (costs, [first, second]) => {
          const works = (order: readonly number[]): boolean => order.indexOf(first as number) <= order.indexOf(second as number);
          let cheapest = Number.POSITIVE_INFINITY;
          for (const order of permutations(5)) if (works(order)) cheapest = Math.min(cheapest, pairsCost(order, table(costs)));
          const found = bestOrder(5, table(costs), anywhere, works);
          expect(found.cost).toBe(cheapest);
          expect(works(found.order as readonly number[])).toBe(true);
        },
      ),
      { numRuns: runs(200) },
    );
  });

  it('says so when an order is wanted that does not exist', () => {
    expect(
      bestOrder(
        2,
        () => 1,
        (item) => item !== 1,
      ),
    ).toEqual({ order: undefined, cost: Number.POSITIVE_INFINITY, atLeast: Number.POSITIVE_INFINITY, exact: true });
    expect(
      bestOrder(
        3,
        () => 1,
        anywhere,
        () => false,
      ),
    ).toMatchObject({ order: undefined, exact: true });
  });

  it('does not claim to have seen all where it gave up', () => {
    // None of 3,628,800 orders works; only some are tried.
    expect(
      bestOrder(
        10,
        () => 1,
        anywhere,
        () => false,
      ),
    ).toMatchObject({ order: undefined, exact: false });
  });

  it('an order of nothing costs nothing', () => {
    expect(bestOrder(0, () => 1, anywhere)).toEqual({ order: [], cost: 0, atLeast: 0, exact: true });
  });

  it('beyond the exact size it still finds an order that fits, and does not call it proven', () => {
    const count = EXACT_UP_TO + 5;
    // Only the reverse order fits.
    const fits: Fits = (item, position) => item === count - 1 - position;
    const found = bestOrder(count, (before, after) => (before < after ? 0 : 1), fits);
    expect(found).toEqual({
      order: Array.from({ length: count }, (_, position) => count - 1 - position),
      cost: (count * (count - 1)) / 2,
      atLeast: 0,
      exact: false,
    });
  });

  it('Infinity for a pair keeps the one from standing before the other', () => {
    let without = 0;
    fc.assert(
      fc.property(
        costsOf(6, fc.oneof({ weight: 4, arbitrary: fc.nat(5) }, { weight: 1, arbitrary: fc.constant(Number.POSITIVE_INFINITY) })),
        (costs) => {
          const found = byForce(6, table(costs), (item, _, placed) => placed.every((before) => table(costs)(before, item) < Infinity));
          if (found.order === undefined) without += 1;
          expect(bestOrder(6, table(costs), anywhere)).toEqual({ ...found, atLeast: found.cost, exact: true });
        },
      ),
      { numRuns: runs(200) },
    );
    expect(without).toBeGreaterThan(0);
  });

  it('with lags equals the cheapest of all orders that keep them, told what is left or not', () => {
    const lag = fc.oneof({ weight: 3, arbitrary: fc.constant(Number.POSITIVE_INFINITY) }, { weight: 1, arbitrary: fc.nat(100) });
    const instance = fc.integer({ min: 2, max: 7 }).chain((count) =>
      fc.record({
        count: fc.constant(count),
        costs: costsOf(count, fc.nat(9)),
        gaps: fc.array(fc.constantFrom(7, 14, 21), { minLength: count, maxLength: count }),
        lags: costsOf(count, lag),
      }),
    );
    const seen = { some: 0, none: 0 };
    fc.assert(
      fc.property(instance, ({ count, costs, gaps, lags }) => {
        const { fits, left } = lagLimits(gaps, lags);
        const found = byForce(count, table(costs), fits);
        seen[found.order === undefined ? 'none' : 'some'] += 1;
        const expected = { ...found, atLeast: found.cost, exact: true };
        expect(bestOrder(count, table(costs), fits)).toEqual(expected);
        expect(bestOrder(count, table(costs), fits, undefined, left)).toEqual(expected);
      }),
      { numRuns: runs(200) },
    );
    expect(Math.min(seen.some, seen.none)).toBeGreaterThan(0);
  });

  it('where it gave up, no order that works costs less than it says any does', () => {
    // Only some of 720 orders work, and 300 are tried.
    const seen = { proven: 0, found: 0, none: 0 };
    fc.assert(
      fc.property(costsOf(6, fc.nat(9)), fc.integer({ min: 100, max: 900 }), fc.nat(1000), (costs, scarce, salt) => {
        const works = (order: readonly number[]): boolean => (order.reduce((sum, item) => sum * 7 + item, salt) * 31) % scarce === 0;
        const [best] = ranked(6, (order) => pairsCost(order, table(costs)), works);
        const found = bestOrder(6, table(costs), anywhere, works);
        expect(found.atLeast).toBeLessThanOrEqual(best?.cost ?? Infinity);
        if (found.exact) {
          seen.proven += 1;
          expect(found.cost).toBe(best?.cost ?? Infinity);
        } else if (found.order === undefined) seen.none += 1;
        else {
          seen.found += 1;
          expect(works(found.order)).toBe(true);
          expect(found.cost).toBe(pairsCost(found.order, table(costs)));
          expect(found.atLeast).toBeLessThan(found.cost);
        }
      }),
      { numRuns: runs(300) },
    );
    expect(Math.min(seen.proven, seen.found, seen.none)).toBeGreaterThan(0);
  });
});

describe('bestOrder beyond the exact size', () => {
  const count = EXACT_UP_TO + 2;

  it('proves an order in which every pair stands the cheaper way round', () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray(
          Array.from({ length: count }, (_, item) => item),
          { minLength: count },
        ),
        costsOf(count, fc.nat(9)),
        (wish, costs) => {
          // Behind each other as wished it costs something, the other way round more.
          const cost = (before: number, after: number): number =>
            (costs[Math.min(before, after)]?.[Math.max(before, after)] ?? 0) + (wish.indexOf(before) < wish.indexOf(after) ? 0 : 1);
          expect(bestOrder(count, cost, anywhere)).toMatchObject({ order: wish, exact: true, cost: pairsCost(wish, cost) });
        },
      ),
      { numRuns: runs(20) },
    );
  });

  it('the best is between what it says any costs and what it found, and moving an item or changing two does not help', () => {
    let between = 0;
    fc.assert(
      fc.property(costsOf(count, fc.nat(9)), (costs) => {
        const cost = table(costs);
        const found = bestOrder(count, cost, anywhere);
        const order = found.order as readonly number[];
        const best = cheapestRest(count, priceOfPairs(count, cost))[0] as number;
        expect([...order].sort((one, other) => one - other)).toEqual(Array.from({ length: count }, (_, item) => item));
        expect(found.cost).toBe(pairsCost(order, cost));
        expect(found.atLeast).toBeLessThanOrEqual(best);
        expect(found.cost).toBeGreaterThanOrEqual(best);
        if (found.atLeast < found.cost) between += 1;
        expect(found.exact).toBe(found.atLeast === found.cost);
        for (const changed of neighboursOf(order)) expect(pairsCost(changed, cost)).toBeGreaterThanOrEqual(found.cost);
      }),
      { numRuns: runs(10) },
    );
    expect(between).toBeGreaterThan(0);
  });

  it('moves nothing to where it does not fit or must not stand', () => {
    fc.assert(
      fc.property(
        costsOf(count, fc.nat(9)),
        fc.array(fc.tuple(fc.nat(count - 1), fc.nat(count - 1)), { maxLength: 20 }),
        (costs, pairs) => {
          // Each pair is kept from standing the wrong way round, by its price or as it does not fit.
          const arcs = pairs.filter(([first, second]) => first < second);
          const byPrice = arcs.filter((_, at) => at % 2 === 0);
          const byFit = arcs.filter((_, at) => at % 2 === 1);
          const cost = (before: number, after: number): number =>
            byPrice.some(([first, second]) => before === second && after === first) ? Infinity : table(costs)(before, after);
          const fits: Fits = (item, _, placed) => byFit.every(([first, second]) => item !== second || placed.includes(first));
          const { order = [] } = bestOrder(count, cost, fits);
          for (const [first, second] of arcs) expect(order.indexOf(first)).toBeLessThan(order.indexOf(second));
          expect(order).toHaveLength(count);
        },
      ),
      { numRuns: runs(20) },
    );
  });

  it('says so where items that must stand before each other go round', () => {
    const round = (before: number, after: number): number => (before < 3 && after === (before + 1) % 3 ? Infinity : 1);
    const none = { order: undefined, cost: Infinity, atLeast: Infinity, exact: true };
    expect(bestOrder(count, round, anywhere)).toEqual(none);
    // One that fits nowhere: all the others are tried in every order, unless it says that nothing is left to it.
    const fits: Fits = (item) => item !== 3;
    const costs = (): number => 1;
    expect(bestOrder(count, costs, fits)).toEqual({ ...none, atLeast: (count * (count - 1)) / 2, exact: false });
    expect(bestOrder(count, costs, fits, undefined, (item) => (item === 3 ? 0 : 1))).toEqual(none);
  });

  it('leaves an order that works where what comes of moving does not', () => {
    // The first one tried works, and none that is cheaper.
    const cost = (before: number, after: number): number => (before + 1 === after || (before === count - 1 && after === 0) ? 0 : 3);
    const tried: string[] = [];
    const works = (order: readonly number[]): boolean => {
      tried.push(order.join());
      return tried[0] === order.join();
    };
    expect(bestOrder(count, cost, anywhere, works).order?.join()).toBe(tried[0]);
  });
});

describe('cheapestOrder', () => {
  it('equals the cheapest of all orders where prices hang on all that stand before', () => {
    const instance = fc.integer({ min: 0, max: 6 }).chain((count) =>
      fc.record({
        count: fc.constant(count),
        prices: fc.array(fc.nat(9), { minLength: count << count, maxLength: count << count }),
        notBehind: fc.array(fc.tuple(fc.nat(5), fc.nat(5)), { maxLength: 4 }),
      }),
    );
    let without = 0;
    fc.assert(
      fc.property(instance, ({ count, prices, notBehind }) => {
        const priceAfter = (set: number, item: number): number => prices[set * count + item] as number;
        const fits: Fits = (item, _, placed) => !notBehind.some(([who, whom]) => who === item && who !== whom && placed.includes(whom));
        const costOf = (order: readonly number[]): number => {
          let [set, sum] = [0, 0];
          for (const item of order) {
            sum += priceAfter(set, item);
            set |= 1 << item;
          }
          return sum;
        };
        const [best] = ranked(count, costOf, (order) => fitsAll(order, fits));
        if (best === undefined) without += 1;
        const cost = best?.cost ?? Infinity;
        expect(cheapestOrder(count, priceAfter, fits)).toEqual({ order: best?.order, cost, atLeast: cost, exact: true });
      }),
      { numRuns: runs(200) },
    );
    expect(without).toBeGreaterThan(0);
  });

  it('refuses more items than can be weighed', () => {
    expect(() => cheapestOrder(EXACT_UP_TO + 1, () => 0)).toThrow(
      new RangeError(`cheapestOrder: expected at most ${EXACT_UP_TO} items, received ${EXACT_UP_TO + 1}`),
    );
  });
});
