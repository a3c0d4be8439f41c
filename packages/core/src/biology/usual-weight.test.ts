import { describe, expect, it } from 'vitest';
import { usualBuild, usualWeight } from './usual-weight.js';

describe('usualWeight', () => {
  it('gives the published weights at 10 cm for each body shape, to the digits printed', () => {
    expect(usualWeight(10, 0.05)).toBeCloseTo(1.17, 1);
    expect(usualWeight(10, 0.15)).toBeCloseTo(5.13, 1);
    expect(usualWeight(10, 0.3)).toBeCloseTo(12.3, 1);
    expect(usualWeight(10, 0.5)).toBeCloseTo(20.42, 1);
    expect(usualWeight(10, undefined)).toBeCloseTo(10.96, 1);
  });

  it('a deeper body never weighs less', () => {
    const depths = [0.02, 0.0799, 0.08, 0.1799, 0.18, 0.3399, 0.34, 0.9];
    const weights = depths.map((depth) => usualWeight(10, depth));
    expect(weights).toEqual([...weights].sort((one, other) => one - other));
  });

  it('a shape is surer than none', () => {
    // The published 95 % band of a shape is a factor of 2.2, of all fishes 4.1; 80 % bands are 1.2816 / 1.96 of that in logarithms.
    const published = (factor: number): number => (Math.log(factor) * 1.2816) / 1.96;
    expect(usualBuild(0.3).logError).toBeCloseTo(published(2.2), 1);
    expect(usualBuild(undefined).logError).toBeCloseTo(published(4.1), 1);
  });
});
