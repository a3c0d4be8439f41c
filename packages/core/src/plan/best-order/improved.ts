import { bySwaps } from '../any-order.js';
import { byInsertions } from './by-insertions.js';
import type { Cost } from './price-of-pairs.js';
import type { Limits } from './search.js';

/** The sum over all pairs of what it costs to have the one before the other. */
export const costOf = (order: readonly number[], cost: Cost): number =>
  order.reduce((sum, after, at) => sum + order.slice(0, at).reduce((part, before) => part + cost(before, after), 0), 0);

/**
 * An order of finite cost made cheaper by moving single items and by changing places two at a time, until neither helps; as it
 * was where what has the last word objects to what comes of that.
 */
export function improved(order: readonly number[], cost: Cost, { fits, works }: Limits): readonly number[] {
  // Changes of cost are differences, in which Infinity would be lost: dearer than all that is finite keeps it out as well.
  const wall = 1 + order.reduce((sum, before) => sum + order.reduce((part, after) => part + ifFinite(before, after, cost), 0), 0);
  const walled: Cost = (before, after) => Math.min(wall, cost(before, after));
  const fitsAll = (changed: readonly number[]): boolean => changed.every((item, at) => fits(item, at, changed.slice(0, at)));
  let best = order;
  let spent = Number.POSITIVE_INFINITY;
  while (costOf(best, walled) < spent) {
    spent = costOf(best, walled);
    best = bySwaps(byInsertions(best, walled, fitsAll), walled, fitsAll);
  }
  return works === undefined || works(best) ? best : order;
}

function ifFinite(before: number, after: number, cost: Cost): number {
  if (before === after) return 0;
  const price = cost(before, after);
  return price === Number.POSITIVE_INFINITY ? 0 : price;
}
