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
  return crossingOf(a.startCm, a.asymptoticCm, a.ratePerYear, b.startCm, b.asymptoticCm, b.ratePerYear, ratio, untilYears);
}

/**
 * The same of plain numbers, which runs over many scenarios have in columns.
 *
 * @example
 * crossingOf(8, 40, 0.5, 5, 8, 1, 2, 10); // 0.2044…
 */
export function crossingOf(
  aStart: number,
  aAsymptotic: number,
  aRate: number,
  bStart: number,
  bAsymptotic: number,
  bRate: number,
  ratio: number,
  untilYears: number,
): number {
  const end = crossedBy(aStart, aAsymptotic, aRate, bStart, bAsymptotic, bRate, ratio, untilYears);
  return end === 0 || end === Number.POSITIVE_INFINITY ? end : rootUpTo(end, aStart, aAsymptotic, aRate, bStart, bAsymptotic, bRate, ratio);
}

/**
 * Whether `a` is ever at least `ratio` times as long as `b`, up to `untilYears`: what {@link firstCrossing} says, without the date.
 *
 * @example
 * everCrosses({ startCm: 8, asymptoticCm: 40, ratePerYear: 0.5 }, { startCm: 5, asymptoticCm: 8, ratePerYear: 1 }, 2, 0.2); // false
 */
export const everCrosses = (a: Growing, b: Growing, ratio: number, untilYears: number): boolean =>
  crossedBy(a.startCm, a.asymptoticCm, a.ratePerYear, b.startCm, b.asymptoticCm, b.ratePerYear, ratio, untilYears) <
  Number.POSITIVE_INFINITY;

/**
 * A time by which the one has become long enough for the first time, and before which it does so once; 0 at once, Infinity never.
 *
 * @example
 * crossedBy(8, 40, 0.5, 5, 8, 1, 2, 10); // 10
 */
export function crossedBy(
  aStart: number,
  aAsymptotic: number,
  aRate: number,
  bStart: number,
  bAsymptotic: number,
  bRate: number,
  ratio: number,
  untilYears: number,
): number {
  const atStart = aStart - ratio * bStart;
  if (atStart >= 0) return 0;
  const aRoom = Math.max(0, aAsymptotic - aStart);
  // Lengths never fall: if a at its end is too short for b as it starts, no time can be right.
  if (aStart + aRoom < ratio * bStart) return Number.POSITIVE_INFINITY;
  const bRoom = ratio * Math.max(0, bAsymptotic - bStart);
  const constant = aStart + aRoom - (ratio * bStart + bRoom);
  const aEnd = aRoom * Math.exp(-aRate * untilYears);
  const bEnd = bRoom * Math.exp(-bRate * untilYears);
  if (constant - aEnd + bEnd >= 0) return untilYears;
  // Below zero at both ends: only a peak in between can reach zero.
  const risesAtStart = aRoom * aRate - bRoom * bRate > 0;
  if (!(risesAtStart && aEnd * aRate - bEnd * bRate < 0)) return Number.POSITIVE_INFINITY;
  const peak = Math.log((bRoom * bRate) / (aRoom * aRate)) / (bRate - aRate);
  const atPeak = constant - aRoom * Math.exp(-aRate * peak) + bRoom * Math.exp(-bRate * peak);
  return peak > 0 && peak < untilYears && atPeak >= 0 ? peak : Number.POSITIVE_INFINITY;
}

/** How narrow a bracket is narrow enough, in years, and the step with which Newton's guess is straddled once it stands still. */
const NARROW = 1e-10;
const STRADDLE = 4e-11;

/** Newton steps that are let go before every second step halves the bracket. */
const FREE_STEPS = 12;

/** The root of the difference between 0, where it is negative, and a time at which it is not. */
function rootUpTo(
  end: number,
  aStart: number,
  aAsymptotic: number,
  aRate: number,
  bStart: number,
  bAsymptotic: number,
  bRate: number,
  ratio: number,
): number {
  const aRoom = Math.max(0, aAsymptotic - aStart);
  const bRoom = ratio * Math.max(0, bAsymptotic - bStart);
  const constant = aStart + aRoom - (ratio * bStart + bRoom);
  let low = 0;
  let high = end;
  let t = end / 2;
  for (let step = 0; step < 200 && high - low > NARROW; step += 1) {
    const aRest = aRoom * Math.exp(-aRate * t);
    const bRest = bRoom * Math.exp(-bRate * t);
    const value = constant - aRest + bRest;
    if (value >= 0) high = t;
    else low = t;
    const move = -value / (aRate * aRest - bRate * bRest);
    // Steps from one side alone never move the other end: where they stand still, the next goes just beyond the root.
    const next = Math.abs(move) < STRADDLE ? t + (value >= 0 ? -STRADDLE : STRADDLE) : t + move;
    const isFree = step < FREE_STEPS || step % 2 === 0;
    t = isFree && next > low && next < high ? next : (low + high) / 2;
  }
  return high;
}
