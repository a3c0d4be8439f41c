/** Numbers from 1 to 16 go by sixty-fourths, those up to 256 by sixty-fourths of their sixteenth. */
const STEPS = 64;
const SPAN = 16;
const INVERSES: Float64Array = Float64Array.from({ length: STEPS * SPAN }, (_, at) => STEPS / (at + 0.5));
const LOGS: Float64Array = Float64Array.from({ length: STEPS * SPAN }, (_, at) => Math.log((at + 0.5) / STEPS));
const THIRD: number = 1 / 3;
const LOG_SPAN: number = Math.log(SPAN);

/**
 * The natural logarithm, in about two thirds of the time that engines take, within 10^-13 of it: for comparisons that are left to the exact functions where they
 * come close.
 *
 * @param x a length in cm or another number of its size; below 1 and from 256 up it goes to the engine
 * @example
 * quickLog(10); // 2.302585…
 */
export function quickLog(x: number): number {
  if (!(x >= 1 && x < SPAN * SPAN)) return Math.log(x);
  const isLarge = x >= SPAN;
  const y = isLarge ? x * (1 / SPAN) : x;
  const at = (y * STEPS) | 0;
  const rest = y * (INVERSES[at] as number) - 1;
  const log = (LOGS[at] as number) + rest * (1 + rest * (-0.5 + rest * (THIRD + rest * (-0.25 + rest * 0.2))));
  return isLarge ? log + LOG_SPAN : log;
}
