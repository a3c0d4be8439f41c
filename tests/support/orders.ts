/** Orders the long way round: all of them, and what each costs. */
import type { Fits } from '../../packages/core/src/plan/best-order/search.js';

/** Every order of the items from 0, in alphabetical order. */
export function* permutations(count: number, placed: readonly number[] = []): Generator<readonly number[]> {
  if (placed.length === count) yield placed;
  for (let item = 0; item < count; item += 1) if (!placed.includes(item)) yield* permutations(count, [...placed, item]);
}

/** The sum over all pairs of what the one before the other costs. */
export function pairsCost(order: readonly number[], cost: (before: number, after: number) => number): number {
  let sum = 0;
  order.forEach((after, at) => {
    for (const before of order.slice(0, at)) sum += cost(before, after);
  });
  return sum;
}

export const fitsAll = (order: readonly number[], fits: Fits): boolean =>
  order.every((item, position) => fits(item, position, order.slice(0, position)));

/** The orders allowed, the cheapest first and equals in alphabetical order. */
export const ranked = (
  count: number,
  costOf: (order: readonly number[]) => number,
  allows: (order: readonly number[]) => boolean = () => true,
): { readonly order: readonly number[]; readonly cost: number }[] =>
  [...permutations(count)]
    .filter(allows)
    .map((order) => ({ order, cost: costOf(order) }))
    .sort((one, other) => one.cost - other.cost);

/** The order with the item at one place moved to another. */
export function moved(order: readonly number[], from: number, to: number): number[] {
  const others = order.filter((_, at) => at !== from);
  others.splice(to, 0, order[from] as number);
  return others;
}

/** The order with two places changed. */
export const changedAt = (order: readonly number[], one: number, other: number): number[] =>
  order.map((item, at) => (at === one ? (order[other] as number) : at === other ? (order[one] as number) : item));

/** Costs from rows; 0 beyond them. */
export const table =
  (rows: readonly (readonly number[])[]) =>
  (before: number, after: number): number =>
    rows[before]?.[after] ?? 0;

/**
 * Batches that take days and must not meet some that went in long before: `limits[a][b]` is from how many days behind a on b may
 * not go in any more. What fits, and how many days are left to those that wait.
 */
export function lagLimits(gapAfter: readonly number[], limits: readonly (readonly number[])[]) {
  const left = (item: number, placed: readonly number[]): number => {
    let [since, least] = [0, Number.POSITIVE_INFINITY];
    for (const before of [...placed].reverse()) {
      since += gapAfter[before] ?? 0;
      least = Math.min(least, (limits[before]?.[item] ?? Number.POSITIVE_INFINITY) - since);
    }
    return Math.max(0, least);
  };
  return { left, fits: (item: number, _: number, placed: readonly number[]): boolean => left(item, placed) > 0 };
}
