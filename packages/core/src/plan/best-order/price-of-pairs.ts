import type { PriceAfter } from './cheapest-rest.js';

/** What it costs to have one item before another: 0 or more, Infinity where that must not be. */
export type Cost = (before: number, after: number) => number;

/**
 * The price of an item behind a set, as the sum over the pairs that it makes with it. Sums are looked up in two halves of the
 * set, so that the tables stay small.
 *
 * @example
 * priceOfPairs(3, (before, after) => 10 * before + after)(0b011, 2); // 14: of 0 before 2 and of 1 before 2
 */
export function priceOfPairs(count: number, cost: Cost): PriceAfter {
  const half = Math.ceil(count / 2);
  const lower = sumsBehind(count, 0, half, cost);
  const upper = sumsBehind(count, half, count, cost);
  const mask = (1 << half) - 1;
  return (set, item) => (lower[(set & mask) * count + item] as number) + (upper[(set >> half) * count + item] as number);
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
