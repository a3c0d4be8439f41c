/** Froese & Binohlan 2000, Journal of Fish Biology 56:758-773: log10 Linf = 0.044 + 0.9841 log10 Lmax, in cm. */
import { asymptoticFromMaximum } from '@commensal/core';
import { describe, expect, it } from 'vitest';

/** Half a unit in the third decimal: the values are rounded to it. */
const HALF_UNIT = 0.0005 + 1e-12;

describe('asymptotic length from the maximum, Froese & Binohlan 2000', () => {
  it.each([
    [5, 5.393],
    [8, 8.565],
    [11, 11.717],
    [20, 21.103],
    [38, 39.689],
    [50, 51.994],
    [100, 102.849],
  ])('%d cm gives %d cm', (maximum, expected) => {
    expect(Math.abs(asymptoticFromMaximum(maximum) - expected)).toBeLessThanOrEqual(HALF_UNIT);
  });

  it('is the formula in logarithms to base ten', () => {
    for (const maximum of [2, 11, 38, 120]) {
      // Ten decimals: two ways to the same power.
      expect(Math.log10(asymptoticFromMaximum(maximum))).toBeCloseTo(0.044 + 0.9841 * Math.log10(maximum), 10);
    }
  });

  it.each([
    [11, 11.07],
    [38, 37.48],
  ])('of %d cm is not %d cm, which public scripts get with natural logarithms', (maximum, misread) => {
    // The misreading, so that this test is about what it says; the two decimals it was noted with are cut, not rounded.
    expect(Math.abs(Math.exp(0.044 + 0.9841 * Math.log(maximum)) - misread)).toBeLessThanOrEqual(0.01);
    // More than 5 % apart: no rounding makes the one out of the other.
    expect(asymptoticFromMaximum(maximum) / misread).toBeGreaterThan(1.05);
  });
});
