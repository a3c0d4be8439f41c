/**
 * An order made cheaper by moving one item at a time to another place, as long as that helps and it still fits. Costs must be
 * finite.
 *
 * @example
 * byInsertions([0, 1, 2], (before) => (before === 0 ? 5 : 0), () => true); // [1, 2, 0]
 */
export function byInsertions(
  order: readonly number[],
  cost: (before: number, after: number) => number,
  fits: (order: readonly number[]) => boolean,
): number[] {
  let best = [...order];
  /** Tries to move the item at a place, outwards from there in one direction, and says whether it did. */
  const move = (from: number, direction: 1 | -1): boolean => {
    const item = best[from] as number;
    let dearer = 0;
    for (let to = from + direction; to >= 0 && to < best.length; to += direction) {
      const passed = best[to] as number;
      const change = cost(passed, item) - cost(item, passed);
      dearer += direction * change;
      // What is gained by rounding alone would go round for ever.
      if (dearer >= -1e-9) continue;
      const changed = best.filter((_, at) => at !== from);
      changed.splice(to, 0, item);
      if (!fits(changed)) continue;
      best = changed;
      return true;
    }
    return false;
  };
  for (let better = true; better; ) {
    better = false;
    for (let from = 0; from < best.length; from += 1) if (move(from, 1) || move(from, -1)) better = true;
  }
  return best;
}
