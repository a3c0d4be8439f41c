import type { Meets } from '../any-order.js';
import type { Fits, Left } from './search.js';

/** Bits of one number. */
const MOST_ITEMS = 31;

/**
 * What fits where items must not meet at their places, and the places left to those that wait, as bits of a number. Each meeting
 * is asked for once at most, however many searches follow.
 *
 * @throws RangeError above 31 items.
 *
 * @example
 * placesLeft(2, (item, position) => item === 0 && position === 0).left(0, []); // 2: the second place, bit 1
 */
export function placesLeft(count: number, meets: Meets): { readonly fits: Fits; readonly left: Left } {
  if (count > MOST_ITEMS) throw new RangeError(`placesLeft: expected at most ${MOST_ITEMS} items, received ${count}`);
  const known = new Map<number, number>();
  /** The places at which an item does not meet another at its own; an item with itself: at which it may stand at all. */
  const freeOf = (item: number, other: number, otherPosition: number): number => {
    const key = (other * count + otherPosition) * count + item;
    const before = known.get(key);
    if (before !== undefined) return before;
    let free = 0;
    for (let position = 0; position < count; position += 1)
      if (!meets(item, position, other, item === other ? position : otherPosition)) free |= 1 << position;
    known.set(key, free);
    return free;
  };
  const left: Left = (item, placed) => {
    // Places are taken from the first on.
    let free = freeOf(item, item, 0) & (-1 << placed.length);
    for (let at = 0; at < placed.length && free !== 0; at += 1) free &= freeOf(item, placed[at] as number, at);
    return free;
  };
  return { fits: (item, position, placed) => (left(item, placed) & (1 << position)) !== 0, left };
}
