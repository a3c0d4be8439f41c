import type { Cost } from './price-of-pairs.js';

/**
 * A cost that no order of the items can go below: of each pair the cheaper direction, and more where preferences go round. Of
 * three items each of which had better stand before the next, one pair has to stand the dearer way round, and so adds at least
 * the least of the three margins; what is counted once is taken off the margins of those pairs. Infinity where there is no order.
 *
 * @example
 * leastCost(3, (before, after) => ((before + 1) % 3 === after ? 1 : 4)); // 6: three times 1, and 3 for going round
 */
export function leastCost(count: number, cost: Cost): number {
  const margins = Array.from({ length: count }, () => new Float64Array(count));
  const marginOf = (before: number, after: number): number => margins[before]?.[after] ?? 0;
  let sum = 0;
  for (let item = 0; item < count; item += 1) {
    for (let other = item + 1; other < count; other += 1) {
      const [one, two] = [cost(item, other), cost(other, item)];
      const cheaper = Math.min(one, two);
      if (cheaper === Number.POSITIVE_INFINITY) return cheaper;
      sum += cheaper;
      // How much dearer the other way round is.
      (margins[item] as Float64Array)[other] = Math.max(0, two - one);
      (margins[other] as Float64Array)[item] = Math.max(0, one - two);
    }
  }
  const rounds: { readonly pairs: readonly (readonly [number, number])[]; readonly least: number }[] = [];
  for (let first = 0; first < count; first += 1) {
    for (let second = first + 1; second < count; second += 1) {
      for (let third = first + 1; third < count; third += 1) {
        if (third === second) continue;
        const pairs = [[first, second] as const, [second, third] as const, [third, first] as const];
        const least = Math.min(...pairs.map(([before, after]) => marginOf(before, after)));
        if (least > 0) rounds.push({ pairs, least });
      }
    }
  }
  // Those that add most first; the sort is stable, so that ties go by the items.
  for (const { pairs } of rounds.sort((one, other) => (one.least === other.least ? 0 : other.least - one.least))) {
    const least = Math.min(...pairs.map(([before, after]) => marginOf(before, after)));
    if (least === Number.POSITIVE_INFINITY) return least;
    sum += least;
    for (const [before, after] of pairs) (margins[before] as Float64Array)[after] = marginOf(before, after) - least;
  }
  return sum;
}
