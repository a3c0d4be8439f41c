/**
 * Numbers that were converted between units, or summed in another order, differ in the sixteenth digit. A limit that is met
 * exactly must stay met: what lies beyond it by less than a part in 10^9 does not count as beyond.
 */
const PART = 1e-9;

/** @example isOver(0.1 + 0.2, 0.3); // false */
export const isOver = (value: number, limit: number): boolean =>
  Number.isFinite(limit) ? value - limit > PART * Math.max(1, Math.abs(limit)) : value > limit;

/**
 * A limit that is met already where only rounding stands between.
 *
 * @example justUnder(2) < 2; // true
 */
export const justUnder = (limit: number): number => limit * (1 - PART);

/** @example isUnder(0.3, 0.1 + 0.2); // false */
export const isUnder = (value: number, limit: number): boolean => isOver(limit, value);
