/**
 * The first whole number of a span at which something holds that, once it does, holds to the end; the end, where it holds at none
 * before. Found by halving, the end itself unasked.
 *
 * @example
 * firstWhere(0, 100, (day) => day * day > 50); // 8
 */
export function firstWhere(from: number, until: number, holds: (at: number) => boolean): number {
  let low = from;
  let high = until;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return high;
}
