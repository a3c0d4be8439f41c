import type { Band } from './band.js';
import { weakest } from './basis.js';
import { logDown, logUp, together } from './log-errors.js';

/**
 * One band over another, their errors independent.
 *
 * @example
 * ratioOf({ low: 9, centre: 10, high: 11, basis: 'measured' }, { low: 2, centre: 2, high: 2, basis: 'practice' }).centre; // 5
 */
export function ratioOf(above: Band, below: Band): Band {
  const centre = above.centre / below.centre;
  return {
    low: centre / Math.exp(together(logDown(above), logUp(below))),
    centre,
    high: centre * Math.exp(together(logUp(above), logDown(below))),
    basis: weakest(above.basis, below.basis),
  };
}
