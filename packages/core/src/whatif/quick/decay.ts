/** Steps of the exponent in a table: the rest of a step needs few terms of the series. */
const STEPS = 64;
const STEP: number = Math.LN2 / STEPS;
const PER_STEP: number = STEPS / Math.LN2;
const SIXTH: number = 1 / 6;
const TWENTY_FOURTH: number = 1 / 24;
/** Beyond, less than 10^-9 is left. */
const MOST = 21;
const TABLE: Float64Array = Float64Array.from({ length: Math.ceil(MOST * PER_STEP) + 1 }, (_, at) => Math.exp(-(at + 0.5) * STEP));

/**
 * `e^-x`, in a third to a half of the time that engines take, within 10^-13 of it relative to its size: for comparisons that are left to the exact
 * functions where they come close.
 *
 * @param x 0 or more; other numbers go to the engine
 * @example
 * quickDecay(1); // 0.367879…
 */
export function quickDecay(x: number): number {
  if (!(x >= 0 && x < MOST)) return Math.exp(-x);
  const at = (x * PER_STEP) | 0;
  const rest = (at + 0.5) * STEP - x;
  return (TABLE[at] as number) * (1 + rest * (1 + rest * (0.5 + rest * (SIXTH + rest * TWENTY_FOURTH))));
}
