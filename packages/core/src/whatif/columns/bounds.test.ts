import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../../tests/support/runs.js';
import { lengthAfter } from '../../biology/length-after.js';
import { decayAtLeast, decayAtMost, lengthAtLeast, lengthAtMost, powerAtLeast, powerAtMost } from './bounds.js';

/** For the rounding of a few products. */
const OVER = 1 + 1e-12;

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

describe('bounds hold', () => {
  it('of powers of 2 to 4, whatever the ratio', () => {
    fc.assert(
      fc.property(between(0.01, 100), between(2, 4), (ratio, exponent) => {
        const power = ratio ** exponent;
        expect(powerAtLeast(ratio, exponent)).toBeLessThanOrEqual(power * OVER);
        expect(powerAtMost(ratio, exponent) * OVER).toBeGreaterThanOrEqual(power);
      }),
      { numRuns: runs(500) },
    );
  });

  it('of decays', () => {
    fc.assert(
      fc.property(fc.oneof(between(0, 2), between(0, 50)), (x) => {
        expect(decayAtLeast(x)).toBeLessThanOrEqual(Math.exp(-x) * OVER);
        expect(decayAtMost(x) * OVER).toBeGreaterThanOrEqual(Math.exp(-x));
      }),
      { numRuns: runs(500) },
    );
  });

  it('of lengths, of what is beyond its asymptotic length too', () => {
    fc.assert(
      fc.property(between(0.1, 50), between(0.1, 50), between(0, 5), between(0, 10), (start, end, rate, years) => {
        const length = lengthAfter(start, end, rate, years);
        expect(lengthAtLeast(start, end, rate, years)).toBeLessThanOrEqual(length * OVER);
        expect(lengthAtMost(start, end, rate, years) * OVER).toBeGreaterThanOrEqual(length);
      }),
      { numRuns: runs(500) },
    );
  });
});

describe('bounds are close', () => {
  it('of powers of nearly 3 for ratios near 1', () => {
    expect(powerAtMost(1.2, 3.05) / powerAtLeast(1.2, 3.05)).toBeLessThan(1.002);
    expect(powerAtMost(0.8, 2.9) / powerAtLeast(0.8, 2.9)).toBeLessThan(1.005);
    expect([powerAtLeast(1, 2.7), powerAtMost(1, 2.7)]).toEqual([1, 1]);
  });

  it('of decays that are not far along', () => {
    expect([decayAtLeast(0), decayAtMost(0)]).toEqual([1, 1]);
    for (const x of [0.1, 0.5, 1]) expect(decayAtMost(x) - decayAtLeast(x)).toBeLessThan(0.002);
  });

  it('an animal without an asymptotic length stays as it is', () => {
    expect([lengthAtLeast(7, Number.NaN, Number.NaN, 2), lengthAtMost(7, Number.NaN, Number.NaN, 2)]).toEqual([7, 7]);
  });
});
