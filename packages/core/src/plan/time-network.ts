/**
 * When things can happen, where the time from one to another is bounded: a simple temporal network (Dechter, Meiri & Pearl 1991,
 * Artificial Intelligence 49: 61-95). Times may be in any unit, days here.
 */

/** x_to - x_from is at most `atMost`; -5 means that `from` comes at least 5 behind `to`. Without a point at one end, day 0. */
export interface TimeBound {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly atMost: number;
}

/** First and last day of every point, each possible while all bounds hold; `latest` is Infinity where nothing ends it. */
export interface Times {
  readonly earliest: readonly number[];
  readonly latest: readonly number[];
  readonly cycle?: undefined;
}

/** Bounds that cannot all hold, each beginning where the one before ends, with day 0 as one more point. */
export interface TimesClash {
  readonly cycle: readonly TimeBound[];
}

/**
 * The first and the last day of each of `count` points, none of which comes before day 0; or the fewest bounds that go round and
 * cannot all hold. Where one of them begins at day 0 or ends there and the next does not meet it, what joins them is that no
 * point comes before day 0.
 *
 * @throws RangeError where a bound names a point that there is not, or its time is no number.
 *
 * @example
 * timesOf(2, [{ from: 1, to: 0, atMost: -14 }, { to: 1, atMost: 30 }]); // { earliest: [0, 14], latest: [16, 30] }
 *
 * @example
 * timesOf(1, [{ to: 0, atMost: -1 }]); // { cycle: [{ to: 0, atMost: -1 }] }
 */
export function timesOf(count: number, bounds: readonly TimeBound[]): Times | TimesClash {
  const arcs = arcsOf('timesOf', count, bounds);
  const points = Array.from({ length: count }, (_, point) => point);
  const notBefore = points.map((point) => ({ from: point, to: count, atMost: 0 }));
  const least = leastTimes(count + 1, [...arcs, ...notBefore]);
  if (least === undefined) return { cycle: shortestCycle(count + 1, arcs) };
  return {
    // Minus nothing is nothing.
    earliest: points.map((point) => 0 - timeAt(least, point, count)),
    latest: points.map((point) => timeAt(least, count, point)),
  };
}

/**
 * The tightest bounds that follow from those given: in row i and column j the most that x_j - x_i can be, Infinity where nothing
 * bounds it; undefined where they cannot all hold. The points are those of the bounds, and day 0 the last row and column.
 *
 * @throws RangeError as {@link timesOf}.
 *
 * @example
 * tightestBounds(2, [{ from: 0, to: 1, atMost: 20 }, { from: 1, to: 0, atMost: -10 }]); // [[0, 20, Infinity], [-10, 0, Infinity], [Infinity, Infinity, 0]]
 */
export const tightestBounds = (count: number, bounds: readonly TimeBound[]): readonly (readonly number[])[] | undefined =>
  leastTimes(count + 1, arcsOf('tightestBounds', count, bounds))?.map((row) => [...row]);

/** From one point to another, day 0 being the one behind all others. */
interface Step {
  readonly from: number;
  readonly to: number;
  readonly atMost: number;
}

/** The step of a bound. */
interface Arc extends Step {
  readonly bound: TimeBound;
}

function arcsOf(who: string, count: number, bounds: readonly TimeBound[]): Arc[] {
  const pointOf = (point: number | undefined): number => {
    if (point === undefined) return count;
    if (!Number.isInteger(point) || point < 0 || point >= count)
      throw new RangeError(`${who}: expected a point from 0 to below ${count}, received ${point}`);
    return point;
  };
  return bounds.map((bound) => {
    // Not a number fails this too.
    if (!(bound.atMost > Number.NEGATIVE_INFINITY)) throw new RangeError(`${who}: expected a time, received ${bound.atMost}`);
    return { from: pointOf(bound.from), to: pointOf(bound.to), atMost: bound.atMost, bound };
  });
}

const timeAt = (times: readonly Float64Array[], from: number, to: number): number => times[from]?.[to] ?? Number.POSITIVE_INFINITY;

/** Sums of fractions that ought to be 0 come out a little below. */
const roundingOf = (arcs: readonly Step[]): number =>
  1e-9 * arcs.reduce((most, { atMost }) => (atMost === Number.POSITIVE_INFINITY ? most : Math.max(most, Math.abs(atMost))), 0);

/** Shortest paths between all points (Floyd 1962, Warshall 1962, from memory); undefined where some cycle is negative. */
function leastTimes(count: number, arcs: readonly Step[]): readonly Float64Array[] | undefined {
  const least = Array.from({ length: count }, (_, point) =>
    new Float64Array(count).fill(Number.POSITIVE_INFINITY).fill(0, point, point + 1),
  );
  for (const { from, to, atMost } of arcs) (least[from] as Float64Array)[to] = Math.min(timeAt(least, from, to), atMost);
  const rounding = roundingOf(arcs);
  for (let over = 0; over < count; over += 1) {
    for (let from = 0; from < count; from += 1) {
      const row = least[from] as Float64Array;
      const first = row[over] as number;
      for (let to = 0; to < count; to += 1) row[to] = Math.min(row[to] as number, first + timeAt(least, over, to));
      if ((row[from] as number) < -rounding) return undefined;
      // What is lost by rounding would be lost again on every way over this point.
      row[from] = 0;
    }
  }
  return least;
}

/**
 * A negative cycle of the fewest bounds, found by following one more of them at a time from every point (Bellman 1958, from
 * memory). Going from any point to day 0 takes no time and counts for nothing: no point comes before it.
 */
function shortestCycle(count: number, arcs: readonly Arc[]): readonly TimeBound[] {
  const day0 = count - 1;
  // What Floyd and Warshall found may go round more than once, each time for a part of it.
  const rounding = roundingOf(arcs) / (2 * count);
  const points = Array.from({ length: count }, (_, point) => point);
  let ways = points.map((start) =>
    points.map((point): Way => ({ time: point === start || point === day0 ? 0 : Number.POSITIVE_INFINITY })),
  );
  for (let length = 1; length <= count; length += 1) {
    const longer = ways.map((before) => {
      const behind = points.map((): Way => NO_WAY);
      for (const arc of arcs) {
        const way = { time: (before[arc.from] as Way).time + arc.atMost, before: before[arc.from], last: arc.bound };
        if (way.time < (behind[arc.to] as Way).time) behind[arc.to] = way;
      }
      behind[day0] = behind.reduce((least, way) => (way.time < least.time ? way : least), behind[day0] as Way);
      return behind;
    });
    const found = longer.map((behind, start) => behind[start] as Way).find(({ time }) => time < -rounding);
    if (found !== undefined) return boundsOf(found);
    ways = longer;
  }
  throw new RangeError('shortestCycle: expected bounds that cannot all hold, received some that can');
}

/** Bounds one behind the other, and the most time that they leave from the first to the last point. */
interface Way {
  readonly time: number;
  readonly before?: Way | undefined;
  readonly last?: TimeBound | undefined;
}

const NO_WAY: Way = { time: Number.POSITIVE_INFINITY };

const boundsOf = ({ before, last }: Way): TimeBound[] => (before === undefined || last === undefined ? [] : [...boundsOf(before), last]);
