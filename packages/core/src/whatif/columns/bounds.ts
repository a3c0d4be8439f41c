/*
 * Bounds of powers and of growth by a few products and a division at most: what they settle needs neither logarithms nor exponentials.
 *
 * A power of 2 to 4 is a cube, times what is left of the exponent by the inequality of the means: `1 / (1 + e (1 / r - 1)) <= r^e <= 1 + e (r - 1)` for an e of 0 to 1. The
 * nearer the ratio is to 1 the closer they are. A decay is the eighth power of that of an eighth, between two sums of the first terms of its series.
 */

/**
 * No more than a ratio to a power of 2 to 4.
 *
 * @example
 * powerAtLeast(1.2, 3.05); // 1.7425…, where the power is 1.7438…
 */
export function powerAtLeast(ratio: number, exponent: number): number {
  const cube = ratio * ratio * ratio;
  const rest = exponent - 3;
  return rest >= 0 ? (cube * ratio) / (ratio + rest * (1 - ratio)) : cube / (1 + rest * (1 - ratio));
}

/**
 * No less than a ratio to a power of 2 to 4.
 *
 * @example
 * powerAtMost(1.2, 3.05); // 1.7452…, where the power is 1.7438…
 */
export function powerAtMost(ratio: number, exponent: number): number {
  const square = ratio * ratio;
  const rest = exponent - 3;
  return rest >= 0 ? square * ratio * (1 - rest * (1 - ratio)) : square * (ratio - rest * (1 - ratio));
}

/** Beyond this, bounds no longer follow a decay. */
const FAR = 8;

/**
 * No more than `e^-x` for an x of 0 or more.
 *
 * @example
 * decayAtLeast(1); // 0.3678…
 */
export function decayAtLeast(x: number): number {
  if (x > FAR) return 0;
  const part = x / 8;
  return eighthPower(1 - part * (1 - part * (1 / 2 - part / 6)));
}

/**
 * No less than `e^-x` for an x of 0 or more.
 *
 * @example
 * decayAtMost(1); // 0.3689…
 */
export function decayAtMost(x: number): number {
  const part = Math.min(x, FAR) / 8;
  return eighthPower(1 - part * (1 - part / 2));
}

function eighthPower(base: number): number {
  const square = base * base;
  const fourth = square * square;
  return fourth * fourth;
}

/**
 * No more than the length some years after an animal had `lengthCm`, as `lengthAfter` has it; without an asymptotic length (NaN) it stays as it is.
 *
 * @example
 * lengthAtLeast(10, 42.5, 0.47, 1); // 22.18…, where the length is 22.187…
 */
export function lengthAtLeast(lengthCm: number, asymptoticCm: number, ratePerYear: number, years: number): number {
  return years > 0 && asymptoticCm > lengthCm ? asymptoticCm - (asymptoticCm - lengthCm) * decayAtMost(ratePerYear * years) : lengthCm;
}

/**
 * No less than that length.
 *
 * @example
 * lengthAtMost(10, 42.5, 0.47, 1); // 22.187…
 */
export function lengthAtMost(lengthCm: number, asymptoticCm: number, ratePerYear: number, years: number): number {
  return years > 0 && asymptoticCm > lengthCm ? asymptoticCm - (asymptoticCm - lengthCm) * decayAtLeast(ratePerYear * years) : lengthCm;
}
