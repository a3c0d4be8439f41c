/** Most items for which every order is weighed exactly; beyond that the first sensible order that fits is taken. */
export const EXACT_UP_TO = 12;

/** Most steps of one search; what is found by then is returned as not proven. */
const MOST_STEPS = 50_000;

/** Most whole orders that are put to `works`, which may be dear. */
const MOST_TRIES = 300;

/** An order and its cost. `exact` where no cheaper one exists; without an order, where none exists at all. */
export interface BestOrder {
  readonly order: readonly number[] | undefined;
  readonly cost: number;
  readonly exact: boolean;
}

type Cost = (before: number, after: number) => number;
type Fits = (item: number, position: number, placed: readonly number[]) => boolean;
type Works = (order: readonly number[]) => boolean;

/**
 * The cheapest order of `count` items. `cost(a, b)` is the price of a before b; `fits(item, position, placed)` says whether
 * an item may stand at a position behind those placed so far; `works` has the last word on a whole order.
 *
 * Depth first over orders, the most promising item first, cut by the cheapest completion without `fits`, which is found
 * beforehand over subsets (Held & Karp 1962 pattern). Among equals the first in the order of items wins.
 *
 * @example
 * bestOrder(2, (a) => (a === 0 ? 5 : 0), () => true); // { order: [1, 0], cost: 0, exact: true }
 */
export function bestOrder(count: number, cost: Cost, fits: Fits, works?: Works): BestOrder {
  return orderBy(pricesOf(count, cost), fits, works);
}

/** What hangs on costs alone, worked out once for many searches over the same items. */
export interface Prices {
  readonly count: number;
  readonly cost: Cost;
  /** Found when first asked for. */
  readonly completion: () => Completion;
}

export function pricesOf(count: number, cost: Cost): Prices {
  let completion: Completion | undefined;
  return {
    count,
    cost,
    completion: () => {
      completion ??= cheapestRest(count, cost);
      return completion;
    },
  };
}

/** {@link bestOrder} with the prices at hand. */
export const orderBy = ({ count, cost, completion }: Prices, fits: Fits, works?: Works): BestOrder =>
  count <= EXACT_UP_TO ? exactOrder(count, completion(), fits, works) : steppedOrder(count, cost, fits, works);

/** For every set already placed, what an item costs behind it, and what ordering all the others costs at least. */
interface Completion {
  readonly priceOf: (set: number, item: number) => number;
  readonly rest: Float64Array;
}

/** What may follow a set of placed items, the first to be tried first. */
type Next = (set: number) => readonly { readonly item: number; readonly price: number; readonly bound: number }[];

function exactOrder(count: number, { priceOf, rest }: Completion, fits: Fits, works: Works | undefined): BestOrder {
  const next: Next = (set) => {
    const items: { item: number; price: number; bound: number }[] = [];
    for (let item = 0; item < count; item += 1) {
      if ((set & (1 << item)) !== 0) continue;
      const price = priceOf(set, item);
      items.push({ item, price, bound: price + (rest[set | (1 << item)] as number) });
    }
    return items;
  };
  const byPromise: Next = (set) => [...next(set)].sort((one, other) => one.bound - other.bound);
  const found = search(count, byPromise, fits, works, Number.POSITIVE_INFINITY);
  if (found.order === undefined || works !== undefined) return found;
  // Prices are summed in another order than the bounds: a part in 10^9 is rounding.
  const first = search(count, next, fits, undefined, found.cost + 1e-9 * Math.max(1, found.cost), true);
  return first.order === undefined ? found : { ...first, exact: found.exact };
}

/** Without bounds: step by step the item that costs least before all the others, and back where nothing fits. */
function steppedOrder(count: number, cost: Cost, fits: Fits, works: Works | undefined): BestOrder {
  const items = Array.from({ length: count }, (_, item) => item);
  const before = items.map((item) => items.map((other) => (item === other ? 0 : cost(item, other))));
  const next: Next = (set) => {
    const left = items.filter((item) => (set & (1 << item)) === 0);
    return left
      .map((item) => {
        const price = left.reduce((sum, other) => sum + (before[item]?.[other] ?? 0), 0);
        return { item, price, bound: 0 };
      })
      .sort((one, other) => one.price - other.price);
  };
  const found = search(count, next, fits, works, Number.POSITIVE_INFINITY, true);
  return { ...found, exact: found.order === undefined && found.exact };
}

/** Depth first over orders that cost less than a limit; the first one at all, or the cheapest. */
function search(count: number, next: Next, fits: Fits, works: Works | undefined, limit: number, takeFirst = false): BestOrder {
  const placed: number[] = [];
  let best: readonly number[] | undefined;
  let most = limit;
  let steps = 0;
  let tries = 0;
  const isOver = (): boolean => steps > MOST_STEPS || tries > MOST_TRIES || (takeFirst && best !== undefined);
  const descend = (set: number, spent: number): void => {
    if (placed.length === count) {
      if (works !== undefined) tries += 1;
      if (tries > MOST_TRIES || (works !== undefined && !works(placed))) return;
      best = [...placed];
      most = spent;
      return;
    }
    for (const { item, price, bound } of next(set)) {
      if (spent + bound >= most || !fits(item, placed.length, placed)) continue;
      steps += 1;
      if (isOver()) return;
      placed.push(item);
      descend(set | (1 << item), spent + price);
      placed.pop();
      if (isOver()) return;
    }
  };
  descend(0, 0);
  const cut = steps > MOST_STEPS || tries > MOST_TRIES;
  return { order: best, cost: best === undefined ? Number.POSITIVE_INFINITY : most, exact: !cut };
}

function cheapestRest(count: number, cost: Cost): Completion {
  // Sums over a set are looked up in two halves, so that the tables stay small.
  const half = Math.ceil(count / 2);
  const lower = sumsBehind(count, 0, half, cost);
  const upper = sumsBehind(count, half, count, cost);
  const mask = (1 << half) - 1;
  const priceOf = (set: number, item: number): number =>
    (lower[(set & mask) * count + item] as number) + (upper[(set >> half) * count + item] as number);

  const full = (1 << count) - 1;
  const rest = new Float64Array(full + 1).fill(Number.POSITIVE_INFINITY);
  rest[full] = 0;
  for (let set = full - 1; set >= 0; set -= 1) {
    for (let item = 0; item < count; item += 1) {
      if ((set & (1 << item)) !== 0) continue;
      const price = (rest[set | (1 << item)] as number) + priceOf(set, item);
      if (price < (rest[set] as number)) rest[set] = price;
    }
  }
  return { priceOf, rest };
}

/** For every set of the items from `first` to below `end`, and every item, the price of the set before the item. */
function sumsBehind(count: number, first: number, end: number, cost: Cost): Float64Array {
  const sums = new Float64Array((1 << (end - first)) * count);
  for (let set = 1; set < 1 << (end - first); set += 1) {
    const lowest = 31 - Math.clz32(set & -set);
    const others = set & (set - 1);
    for (let item = 0; item < count; item += 1) {
      const price = item === first + lowest ? 0 : cost(first + lowest, item);
      sums[set * count + item] = (sums[others * count + item] as number) + price;
    }
  }
  return sums;
}
