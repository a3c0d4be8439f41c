/** Most places tried before the question is left open. */
const MOST_STEPS = 20_000;

/** Whether an item at a position and another at its own cannot both stand there; an item with itself: whether it cannot stand there at all. */
export type Meets = (item: number, position: number, other: number, otherPosition: number) => boolean;

/** An order in which nothing meets what it must not; undefined with `exact` where there is none. */
export interface AnyOrder {
  readonly order: readonly number[] | undefined;
  readonly exact: boolean;
}

/**
 * Some order that fits, as near as may be to the one wished for: items are placed one by one, the one with the fewest places
 * left first, each as near as it may be to its place in the wish.
 *
 * @example
 * anyOrder([0, 1], (item, position) => item === 0 && position === 0); // { order: [1, 0], exact: true }
 */
export function anyOrder(wish: readonly number[], meets: Meets): AnyOrder {
  const count = wish.length;
  const wanted = new Map(wish.map((item, position) => [item, position]));
  const everywhere = wish.map((_, position) => position);
  const near = (item: number): number[] => [...everywhere].sort((one, other) => distance(item, one) - distance(item, other) || one - other);
  const distance = (item: number, position: number): number => Math.abs(position - (wanted.get(item) ?? 0));
  const placed: number[] = [];
  let steps = 0;
  const place = (open: ReadonlyMap<number, readonly number[]>): boolean => {
    if (open.size === 0) return true;
    if (isCrowded([...open.values()], count)) return false;
    const [item, places] = [...open].reduce((least, entry) => (entry[1].length < least[1].length ? entry : least));
    for (const position of places) {
      steps += 1;
      if (steps > MOST_STEPS) return false;
      const left = new Map<number, readonly number[]>();
      for (const [other, others] of open) {
        if (other !== item)
          left.set(
            other,
            others.filter((at) => at !== position && !meets(item, position, other, at)),
          );
      }
      placed[position] = item;
      if ([...left.values()].every((others) => others.length > 0) && place(left)) return true;
    }
    return false;
  };
  const found = place(new Map(wish.map((item) => [item, near(item).filter((position) => !meets(item, position, item, position))])));
  return { order: found ? placed : undefined, exact: steps <= MOST_STEPS };
}

/** Whether more items want the first places, or the last, than there are: those left free count fewer, never more. */
function isCrowded(open: readonly (readonly number[])[], count: number): boolean {
  const free = new Uint8Array(count);
  const wantFirst = new Uint16Array(count);
  const wantLast = new Uint16Array(count);
  for (const places of open) {
    let first = count - 1;
    let last = 0;
    for (const place of places) {
      free[place] = 1;
      if (place < first) first = place;
      if (place > last) last = place;
    }
    wantFirst[last] = (wantFirst[last] ?? 0) + 1;
    wantLast[first] = (wantLast[first] ?? 0) + 1;
  }
  let spareBelow = 0;
  let spareAbove = 0;
  for (let place = 0; place < count; place += 1) {
    const mirrored = count - 1 - place;
    spareBelow += (free[place] ?? 0) - (wantFirst[place] ?? 0);
    spareAbove += (free[mirrored] ?? 0) - (wantLast[mirrored] ?? 0);
    if (spareBelow < 0 || spareAbove < 0) return true;
  }
  return false;
}

/**
 * An order made cheaper by changing places two at a time, as long as that helps and it still fits.
 *
 * @example
 * bySwaps([0, 1], (before) => (before === 0 ? 5 : 0), () => true); // [1, 0]
 */
export function bySwaps(
  order: readonly number[],
  cost: (before: number, after: number) => number,
  fits: (order: readonly number[]) => boolean,
): number[] {
  const best = [...order];
  const at = (position: number): number => best[position] as number;
  /** By how much it grows dearer when two change places: only what stands between them sees them change sides. */
  const dearer = (first: number, second: number): number => {
    const [one, other] = [at(first), at(second)];
    let sum = cost(other, one) - cost(one, other);
    for (let between = first + 1; between < second; between += 1) {
      const item = at(between);
      sum += cost(other, item) + cost(item, one) - cost(one, item) - cost(item, other);
    }
    return sum;
  };
  const change = (first: number, second: number): void => {
    [best[first], best[second]] = [at(second), at(first)];
  };
  for (let better = true; better; ) {
    better = false;
    for (let first = 0; first < best.length; first += 1) {
      for (let second = first + 1; second < best.length; second += 1) {
        // What is gained by rounding alone would go round for ever.
        if (dearer(first, second) >= -1e-9) continue;
        change(first, second);
        if (fits(best)) better = true;
        else change(first, second);
      }
    }
  }
  return best;
}
