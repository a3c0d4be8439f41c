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
  const end = crossedBy(a, b, ratio, untilYears);
  return end === 0 || end === Number.POSITIVE_INFINITY ? end : rootUpTo(end, a, b, ratio);
}

/**
 * Whether `a` is ever at least `ratio` times as long as `b`, up to `untilYears`: what {@link firstCrossing} says, without the date.
 *
 * @example
 * everCrosses({ startCm: 8, asymptoticCm: 40, ratePerYear: 0.5 }, { startCm: 5, asymptoticCm: 8, ratePerYear: 1 }, 2, 0.2); // false
 */
export const everCrosses = (a: Growing, b: Growing, ratio: number, untilYears: number): boolean =>
  crossedBy(a, b, ratio, untilYears) < Number.POSITIVE_INFINITY;

/** A time by which the one has become long enough for the first time, and before which it does so once; 0 at once, Infinity never. */
function crossedBy(a: Growing, b: Growing, ratio: number, untilYears: number): number {
  const atStart = a.startCm - ratio * b.startCm;
  if (atStart >= 0) return 0;
  const aRoom = Math.max(0, a.asymptoticCm - a.startCm);
  // Lengths never fall: if a at its end is too short for b as it starts, no time can be right.
  if (a.startCm + aRoom < ratio * b.startCm) return Number.POSITIVE_INFINITY;
  const bRoom = ratio * Math.max(0, b.asymptoticCm - b.startCm);
  const constant = a.startCm + aRoom - (ratio * b.startCm + bRoom);
  const aEnd = aRoom * Math.exp(-a.ratePerYear * untilYears);
  const bEnd = bRoom * Math.exp(-b.ratePerYear * untilYears);
  if (constant - aEnd + bEnd >= 0) return untilYears;
  // Below zero at both ends: only a peak in between can reach zero.
  const risesAtStart = aRoom * a.ratePerYear - bRoom * b.ratePerYear > 0;
  if (!(risesAtStart && aEnd * a.ratePerYear - bEnd * b.ratePerYear < 0)) return Number.POSITIVE_INFINITY;
  const peak = Math.log((bRoom * b.ratePerYear) / (aRoom * a.ratePerYear)) / (b.ratePerYear - a.ratePerYear);
  const atPeak = constant - aRoom * Math.exp(-a.ratePerYear * peak) + bRoom * Math.exp(-b.ratePerYear * peak);
  return peak > 0 && peak < untilYears && atPeak >= 0 ? peak : Number.POSITIVE_INFINITY;
}

/** How narrow a bracket is narrow enough, in years, and the step with which Newton's guess is straddled once it stands still. */
const NARROW = 1e-10;
const STRADDLE = 4e-11;

/** Newton steps that are let go before every second step halves the bracket. */
const FREE_STEPS = 12;

/** The root of the difference between 0, where it is negative, and a time at which it is not. */
function rootUpTo(end: number, a: Growing, b: Growing, ratio: number): number {
  const aRoom = Math.max(0, a.asymptoticCm - a.startCm);
  const bRoom = ratio * Math.max(0, b.asymptoticCm - b.startCm);
  const constant = a.startCm + aRoom - (ratio * b.startCm + bRoom);
  let low = 0;
  let high = end;
  let t = end / 2;
  for (let step = 0; step < 200 && high - low > NARROW; step += 1) {
    const aRest = aRoom * Math.exp(-a.ratePerYear * t);
    const bRest = bRoom * Math.exp(-b.ratePerYear * t);
    const value = constant - aRest + bRest;
    if (value >= 0) high = t;
    else low = t;
    const move = -value / (a.ratePerYear * aRest - b.ratePerYear * bRest);
    // Steps from one side alone never move the other end: where they stand still, the next goes just beyond the root.
    const next = Math.abs(move) < STRADDLE ? t + (value >= 0 ? -STRADDLE : STRADDLE) : t + move;
    const isFree = step < FREE_STEPS || step % 2 === 0;
    t = isFree && next > low && next < high ? next : (low + high) / 2;
  }
  return high;
}
