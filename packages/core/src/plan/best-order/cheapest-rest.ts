/** What an item costs behind a set of placed ones, which is given as bits. */
export type PriceAfter = (set: number, item: number) => number;

/**
 * For every set of placed items, what placing all the others costs at least: exactly that where each may stand anywhere. Found
 * from the full set downwards (Held & Karp 1962 and Lawler 1964 pattern, from memory), in 2^count * count / 2 prices.
 *
 * @example
 * cheapestRest(2, (set, item) => (set === 0 ? 1 : 10 * item)); // new Float64Array([1, 10, 0, 0])
 */
export function cheapestRest(count: number, priceAfter: PriceAfter): Float64Array {
  const full = (1 << count) - 1;
  const rest = new Float64Array(full + 1).fill(Number.POSITIVE_INFINITY);
  rest[full] = 0;
  for (let set = full - 1; set >= 0; set -= 1) {
    let least = Number.POSITIVE_INFINITY;
    for (let others = full & ~set; others !== 0; others &= others - 1) {
      const item = 31 - Math.clz32(others & -others);
      const price = (rest[set | (1 << item)] as number) + priceAfter(set, item);
      if (price < least) least = price;
    }
    rest[set] = least;
  }
  return rest;
}
