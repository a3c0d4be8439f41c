/** The first day of a span on which something holds that, once it does, holds to the end. */
export function firstDay(from: number, until: number, holds: (day: number) => boolean): number {
  let low = from;
  let high = until;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return high;
}
