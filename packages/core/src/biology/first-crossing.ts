/** A length on its way: at time 0, in the end, and how fast it gets there. */
export interface Growing {
  readonly startCm: number;
  readonly asymptoticCm: number;
  readonly ratePerYear: number;
}

/**
 * First time, in years, at which `a` is at least `ratio` times as long as `b`; Infinity when that never happens up to `untilYears`.
 *
 * With von Bertalanffy growth the difference `f(t) = a(t) - ratio b(t)` is a constant plus two exponentials, so it has at
 * most one stationary point and two roots. A sign change is bracketed exactly, by the end of the span or by the stationary
 * point, and closed in by Newton steps that fall back to bisection; the result is within 1e-9 years, or, where the difference
 * hardly changes, within the times at which it is lost in the rounding of the lengths.
 *
 * @example
 * firstCrossing({ startCm: 8, asymptoticCm: 40, ratePerYear: 0.5 }, { startCm: 5, asymptoticCm: 8, ratePerYear: 1 }, 2, 10);
 * // 0.2044…: after 75 days the one is twice as long as the other
 */
export function firstCrossing(a: Growing, b: Growing, ratio: number, untilYears: number): number {
  const aRoom = Math.max(0, a.asymptoticCm - a.startCm);
  const bRoom = ratio * Math.max(0, b.asymptoticCm - b.startCm);
  const constant = a.startCm + aRoom - (ratio * b.startCm + bRoom);
  const atStart = a.startCm - ratio * b.startCm;
  if (atStart >= 0) return 0;
  // Lengths never fall: if a at its end is too short for b as it starts, no time can be right.
  if (a.startCm + aRoom < ratio * b.startCm) return Number.POSITIVE_INFINITY;

  const f = (t: number): number => constant - aRoom * Math.exp(-a.ratePerYear * t) + bRoom * Math.exp(-b.ratePerYear * t);
  const slope = (t: number): number =>
    aRoom * a.ratePerYear * Math.exp(-a.ratePerYear * t) - bRoom * b.ratePerYear * Math.exp(-b.ratePerYear * t);

  let end = untilYears;
  if (!(f(end) >= 0)) {
    // Below zero at both ends: only a peak in between can reach zero.
    if (!(slope(0) > 0 && slope(end) < 0)) return Number.POSITIVE_INFINITY;
    end = Math.log((bRoom * b.ratePerYear) / (aRoom * a.ratePerYear)) / (b.ratePerYear - a.ratePerYear);
    if (!(end > 0 && end < untilYears && f(end) >= 0)) return Number.POSITIVE_INFINITY;
  }
  return rootBetween(f, slope, 0, end);
}

/** The root of f between a time where it is negative and one where it is not. */
function rootBetween(f: (t: number) => number, slope: (t: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  let t = (low + high) / 2;
  for (let step = 0; step < 200 && high - low > 1e-10; step += 1) {
    const value = f(t);
    if (value >= 0) high = t;
    else low = t;
    const newton = t - value / slope(t);
    // A Newton step from one side alone never moves the other end; every third step halves the bracket.
    t = step % 3 !== 2 && newton > low && newton < high ? newton : (low + high) / 2;
  }
  return high;
}
