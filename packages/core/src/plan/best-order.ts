/** Most items for which every order is weighed exactly; beyond that the order is built step by step. */
export const EXACT_UP_TO = 12;

/** Most steps of one search; an order found by then is returned as not proven. */
const MOST_STEPS = 200_000;

/** An order and its cost; `exact` where no cheaper one exists. */
export interface BestOrder {
  readonly order: readonly number[];
  readonly cost: number;
  readonly exact: boolean;
}

/**
 * The cheapest order of `count` items. `cost(a, b)` is the price of a before b; `fits(item, position, placed)` says whether
 * an item may stand at a position behind those placed so far. Undefined when no order fits.
 *
 * Depth first over orders, cut by the cheapest completion without `fits`, which is found beforehand over subsets (Held & Karp
 * 1962 pattern). Among equals the first in the order of items wins.
 *
 * @example
 * bestOrder(2, (a) => (a === 0 ? 5 : 0), () => true); // { order: [1, 0], cost: 0, exact: true }
 */
export function bestOrder(
  count: number,
  cost: (before: number, after: number) => number,
  fits: (item: number, position: number, placed: readonly number[]) => boolean,
): BestOrder | undefined {
  return count <= EXACT_UP_TO ? exactOrder(count, cost, fits) : steppedOrder(count, cost, fits);
}

function exactOrder(
  count: number,
  cost: (before: number, after: number) => number,
  fits: (item: number, position: number, placed: readonly number[]) => boolean,
): BestOrder | undefined {
  const rest = cheapestRest(count, cost);
  const placed: number[] = [];
  let best: { order: number[]; cost: number } | undefined;
  let steps = 0;
  const descend = (set: number, spent: number): void => {
    if (best !== undefined && spent + (rest[set] as number) >= best.cost) return;
    steps += 1;
    if (steps > MOST_STEPS) return;
    if (placed.length === count) {
      best = { order: [...placed], cost: spent };
      return;
    }
    for (let item = 0; item < count; item += 1) {
      if ((set & (1 << item)) !== 0 || !fits(item, placed.length, placed)) continue;
      let price = 0;
      for (const before of placed) price += cost(before, item);
      placed.push(item);
      descend(set | (1 << item), spent + price);
      placed.pop();
    }
  };
  descend(0, 0);
  return best === undefined ? undefined : { ...best, exact: steps <= MOST_STEPS };
}

/** For every set already placed, what ordering the others costs at least. */
function cheapestRest(count: number, cost: (before: number, after: number) => number): Float64Array {
  const full = (1 << count) - 1;
  const rest = new Float64Array(full + 1).fill(Number.POSITIVE_INFINITY);
  rest[full] = 0;
  for (let set = full - 1; set >= 0; set -= 1) {
    for (let item = 0; item < count; item += 1) {
      if ((set & (1 << item)) !== 0) continue;
      let price = rest[set | (1 << item)] as number;
      for (let before = 0; before < count; before += 1) if ((set & (1 << before)) !== 0) price += cost(before, item);
      if (price < (rest[set] as number)) rest[set] = price;
    }
  }
  return rest;
}

/** Step by step the item that costs least before all the others; no proof that it is best. */
function steppedOrder(
  count: number,
  cost: (before: number, after: number) => number,
  fits: (item: number, position: number, placed: readonly number[]) => boolean,
): BestOrder | undefined {
  const placed: number[] = [];
  const left = new Set(Array.from({ length: count }, (_, item) => item));
  let total = 0;
  while (left.size > 0) {
    let next: number | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const item of left) {
      if (!fits(item, placed.length, placed)) continue;
      let price = 0;
      for (const other of left) if (other !== item) price += cost(item, other);
      if (price < least) {
        least = price;
        next = item;
      }
    }
    if (next === undefined) return undefined;
    total += least;
    placed.push(next);
    left.delete(next);
  }
  return { order: placed, cost: total, exact: false };
}
