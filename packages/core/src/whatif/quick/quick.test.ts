import { describe, expect, it } from 'vitest';
import { quickDecay } from './decay.js';
import { quickLog } from './log.js';

/** Steps of the tables are 0.0108 and a 64th wide: this meets each at many points, edges with them. */
const POINTS = 200_000;

/** What the terms left out come to, `r^5 / 120` and `r^6 / 6` at the edge of a step, and the rounding of some ten sums and products of numbers around 1. */
const WITHIN = 1e-13;

describe('quick functions keep to those of the engine', () => {
  it('the decay', () => {
    for (let point = 0; point <= POINTS; point += 1) {
      const x = (21.5 * point) / POINTS;
      expect(Math.abs(quickDecay(x) / Math.exp(-x) - 1)).toBeLessThan(WITHIN);
    }
    for (const x of [0, -1, 21, 30, 800, Number.NaN, Number.POSITIVE_INFINITY]) {
      if (x === 0) expect(quickDecay(x)).toBeCloseTo(1, 13);
      else expect(quickDecay(x)).toBe(Math.exp(-x));
    }
  });

  it('the logarithm', () => {
    for (let point = 0; point <= POINTS; point += 1) {
      const x = 0.5 + (256 * point) / POINTS;
      expect(Math.abs(quickLog(x) - Math.log(x))).toBeLessThan(WITHIN);
    }
    for (const x of [1, 16 - 1e-12, 16, 256 - 1e-12]) expect(Math.abs(quickLog(x) - Math.log(x))).toBeLessThan(WITHIN);
    for (const x of [0.999, 256, 1e9, 0, -1, Number.NaN]) expect(quickLog(x)).toBe(Math.log(x));
  });
});
