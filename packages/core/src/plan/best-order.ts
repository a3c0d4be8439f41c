import { cheapestRest, type PriceAfter } from './best-order/cheapest-rest.js';
import { costOf, improved } from './best-order/improved.js';
import { leastCost } from './best-order/least-cost.js';
import { type Cost, priceOfPairs } from './best-order/price-of-pairs.js';
import { type Aim, type Fits, type Found, type Left, type Limits, search, type Steps, type Works } from './best-order/search.js';

/** Most items for which every order is weighed, as tables over their subsets take 1 to 2 ms at that; beyond that one that fits is made as cheap as moving items about makes it. */
export const EXACT_UP_TO = 14;

/**
 * An order and its cost. No order that fits and works costs less than `atLeast`, so that the one found is at most the difference
 * from the best. `exact` where no cheaper one exists, and there the two are the same; without an order, where none exists at all.
 */
export interface BestOrder {
  readonly order: readonly number[] | undefined;
  readonly cost: number;
  readonly atLeast: number;
  readonly exact: boolean;
}

/**
 * The cheapest order of `count` items. `cost(a, b)` is the price of a before b, Infinity where a must never stand before b;
 * `fits(item, position, placed)` says whether an item may stand at a position behind those placed so far; `works` has the last
 * word on a whole order; `left` makes the search short where items stop fitting (see {@link Left}).
 *
 * Depth first over orders, the most promising item first, cut by the cheapest completion without `fits`, which is found
 * beforehand over subsets. Among equals the first in the order of items wins.
 *
 * @example
 * bestOrder(2, (a) => (a === 0 ? 5 : 0), () => true); // { order: [1, 0], cost: 0, atLeast: 0, exact: true }
 */
export function bestOrder(count: number, cost: Cost, fits: Fits, works?: Works, left?: Left): BestOrder {
  return orderBy(pricesOf(count, cost), fits, works, left);
}

/**
 * The cheapest order of at most {@link EXACT_UP_TO} items where the price of one hangs on all that stand before it:
 * `priceAfter(set, item)`, with item i in the set where bit i is. Otherwise like {@link bestOrder}.
 *
 * @example
 * cheapestOrder(3, (set, item) => (set === 0 ? 3 - item : item)); // { order: [2, 0, 1], cost: 2, atLeast: 2, exact: true }
 */
export function cheapestOrder(count: number, priceAfter: PriceAfter, fits: Fits = () => true, works?: Works, left?: Left): BestOrder {
  if (count > EXACT_UP_TO) throw new RangeError(`cheapestOrder: expected at most ${EXACT_UP_TO} items, received ${count}`);
  return weighAll(count, stepsOf(priceAfter, cheapestRest(count, priceAfter)), { fits, works, left });
}

/** What hangs on costs alone, worked out once for many searches over the same items. */
export interface Prices {
  readonly count: number;
  readonly cost: Cost;
  /** Found when first asked for. */
  readonly steps: () => Steps;
  readonly atLeast: () => number;
}

export function pricesOf(count: number, cost: Cost): Prices {
  let steps: Steps | undefined;
  let atLeast: number | undefined;
  return {
    count,
    cost,
    steps: () => {
      steps ??= count <= EXACT_UP_TO ? stepsOfPairs(count, cost) : regrets(count, cost);
      return steps;
    },
    atLeast: () => {
      atLeast ??= leastCost(count, cost);
      return atLeast;
    },
  };
}

function stepsOfPairs(count: number, cost: Cost): Steps {
  const priceAfter = priceOfPairs(count, cost);
  return stepsOf(priceAfter, cheapestRest(count, priceAfter));
}

const stepsOf = (priceAfter: PriceAfter, rest: Float64Array): Steps => ({
  price: ({ set }, item) => priceAfter(set, item),
  rest: ({ set }, item) => rest[set | (1 << item)] as number,
});

/** Without tables: by how much an item is dearer before all that wait than behind those that had better stand before it. */
function regrets(count: number, cost: Cost): Steps {
  const items = Array.from({ length: count }, (_, item) => item);
  const regret = items.map((item) =>
    items.map((other) => (item === other ? 0 : cost(item, other) - Math.min(cost(item, other), cost(other, item)))),
  );
  return {
    price: ({ waits }, item) => (regret[item] ?? []).reduce((sum, price, other) => (waits[other] ? sum + price : sum), 0),
    rest: () => 0,
  };
}

/** {@link bestOrder} with the prices at hand. */
export function orderBy(prices: Prices, fits: Fits, works?: Works, left?: Left): BestOrder {
  const limits = { fits, works, left };
  const found = prices.count <= EXACT_UP_TO ? weighAll(prices.count, prices.steps(), limits) : firstThatFits(prices, limits);
  if (found.order === undefined || found.exact) return found;
  const order = improved(found.order, prices.cost, limits);
  return judged({ order, cost: costOf(order, prices.cost), atLeast: found.atLeast });
}

const NO_LIMIT: Aim = { below: Number.POSITIVE_INFINITY, takeFirst: false, inOrder: false };

/** The cheapest order, and among equals the first, as far as the search goes. */
function weighAll(count: number, steps: Steps, limits: Limits): BestOrder {
  const found = judged(search(count, steps, limits, NO_LIMIT));
  if (found.order === undefined || !found.exact || limits.works !== undefined) return found;
  const first = search(count, steps, limits, { below: found.cost + roundingOf(found.cost), takeFirst: true, inOrder: true });
  return first.order === undefined ? found : { ...found, order: first.order };
}

/** Of many items, one order that fits, and what any costs at least. */
function firstThatFits(prices: Prices, limits: Limits): BestOrder {
  const atLeast = prices.atLeast();
  if (atLeast === Number.POSITIVE_INFINITY) return judged({ order: undefined, cost: atLeast, atLeast });
  const found = search(prices.count, prices.steps(), limits, { ...NO_LIMIT, takeFirst: true });
  if (found.order === undefined) return judged({ ...found, atLeast: found.atLeast === Number.POSITIVE_INFINITY ? found.atLeast : atLeast });
  return judged({ order: found.order, cost: costOf(found.order, prices.cost), atLeast });
}

/** Whether it is the best, by what any costs at least. */
function judged({ order, cost, atLeast }: Found): BestOrder {
  if (order === undefined) return { order, cost, atLeast, exact: atLeast === Number.POSITIVE_INFINITY };
  const exact = cost <= atLeast + roundingOf(cost);
  return { order, cost, atLeast: exact ? cost : atLeast, exact };
}

/** Prices are summed in another order than the bounds: a part in 10^9 is rounding. */
const roundingOf = (cost: number): number => 1e-9 * Math.max(1, cost);
