import type { Band } from './band.js';

/** How far the upper end lies above the centre, in natural logarithms. */
export const logUp = (band: Band): number => Math.log(band.high / band.centre);

/** How far the lower end lies below the centre, in natural logarithms. */
export const logDown = (band: Band): number => Math.log(band.centre / band.low);

/**
 * Independent errors in natural logarithms, taken together as the root of the sum of squares.
 *
 * @example
 * together(0.03, 0.04); // 0.05
 */
export function together(...errors: readonly number[]): number {
  let sum = 0;
  for (const error of errors) sum += error * error;
  return Math.sqrt(sum);
}
