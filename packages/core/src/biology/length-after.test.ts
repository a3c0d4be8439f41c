import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { lengthAfter } from './length-after.js';

const length = fc.double({ min: 0.5, max: 100, noNaN: true });
const rate = fc.double({ min: 0.03, max: 16, noNaN: true });
const years = fc.double({ min: 0, max: 30, noNaN: true });
/** Roundings of one exponential, one product and one difference of numbers up to 100. */
const ROUNDING = 1e-12;

describe('lengthAfter', () => {
  it('is the start after no time, and comes ever closer to the asymptote', () => {
    expect(lengthAfter(10, 40, 0.5, 0)).toBe(10);
    expect(lengthAfter(10, 40, 0.5, Number.POSITIVE_INFINITY)).toBe(40);
  });

  it('closes half of the gap to the asymptote in ln 2 over K', () => {
    // Twelve decimals: ln 2 and its exponential are rounded.
    expect(lengthAfter(10, 40, 0.5, Math.LN2 / 0.5)).toBeCloseTo(25, 12);
  });

  it('an animal at its asymptote or beyond does not grow, and does not shrink', () => {
    fc.assert(
      fc.property(length, fc.double({ min: 1, max: 3, noNaN: true }), rate, years, (asymptotic, beyond, k, t) => {
        const start = asymptotic * beyond;
        expect(lengthAfter(start, asymptotic, k, t)).toBe(start);
      }),
      { numRuns: runs(300) },
    );
  });

  it('never falls with time, and never passes the larger of start and asymptote', () => {
    fc.assert(
      fc.property(length, length, rate, years, years, (start, asymptotic, k, one, other) => {
        const sooner = lengthAfter(start, asymptotic, k, Math.min(one, other));
        const later = lengthAfter(start, asymptotic, k, Math.max(one, other));
        expect(later).toBeGreaterThanOrEqual(sooner - ROUNDING);
        expect(sooner).toBeGreaterThanOrEqual(start - ROUNDING);
        expect(later).toBeLessThanOrEqual(Math.max(start, asymptotic));
      }),
      { numRuns: runs(500) },
    );
  });

  it('the longer at the start is never the shorter later on', () => {
    fc.assert(
      fc.property(length, length, length, rate, years, (one, other, asymptotic, k, t) => {
        const short = lengthAfter(Math.min(one, other), asymptotic, k, t);
        const long = lengthAfter(Math.max(one, other), asymptotic, k, t);
        expect(long).toBeGreaterThanOrEqual(short - ROUNDING);
      }),
      { numRuns: runs(500) },
    );
  });

  it('two steps come to the same as one', () => {
    fc.assert(
      fc.property(length, length, rate, years, years, (start, asymptotic, k, first, second) => {
        const inSteps = lengthAfter(lengthAfter(start, asymptotic, k, first), asymptotic, k, second);
        expect(Math.abs(inSteps - lengthAfter(start, asymptotic, k, first + second))).toBeLessThanOrEqual(ROUNDING * 10);
      }),
      { numRuns: runs(300) },
    );
  });
});
