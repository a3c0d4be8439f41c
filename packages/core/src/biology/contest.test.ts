import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { CONTEST_STEEPNESS, chanceOfWinning } from './chance-of-winning.js';
import { effectiveLength, RESIDENCE_WORTH } from './effective-length.js';
import { weightEquivalentLength } from './weight-equivalent-length.js';
import { weight } from './weight.js';

const length = fc.double({ min: 0.5, max: 150, noNaN: true });
const days = fc.double({ min: 0, max: 5000, noNaN: true });

describe('weight and weightEquivalentLength', () => {
  it('a fish of 1 cm weighs a', () => {
    expect(weight(1, 0.02, 3)).toBe(0.02);
  });

  it('are each other’s inverse for a fish of ordinary build', () => {
    fc.assert(
      fc.property(length, (cm) => {
        // A relative 10^-13: a logarithm and an exponential of up to 16, each right to a few 10^-16 of that.
        expect(Math.abs(weightEquivalentLength(weight(cm, 0.0112, 3.04)) / cm - 1)).toBeLessThanOrEqual(1e-13);
      }),
      { numRuns: runs(300) },
    );
  });

  it('doubling the length multiplies weight by 2^b', () => {
    fc.assert(
      fc.property(length, fc.double({ min: 2.5, max: 3.5, noNaN: true }), (cm, b) => {
        // A relative 10^-13: as above.
        expect(Math.abs(weight(2 * cm, 0.01, b) / weight(cm, 0.01, b) / 2 ** b - 1)).toBeLessThanOrEqual(1e-13);
      }),
      { numRuns: runs(300) },
    );
  });

  it('an eel counts as a shorter fish, a deep body as a longer one', () => {
    expect(weightEquivalentLength(weight(30, 0.00102329, 3.06))).toBeLessThan(20);
    expect(weightEquivalentLength(weight(15, 0.0199526, 3.01))).toBeGreaterThan(15);
  });
});

describe('effectiveLength', () => {
  it('is the length itself on the first day, and 15 % more in the end', () => {
    expect(effectiveLength(10, 0)).toBe(10);
    expect(effectiveLength(10, Number.POSITIVE_INFINITY)).toBeCloseTo(11.5, 12); // a product of two rounded numbers
  });

  it('half of it is there after a week', () => {
    // 10 ln 2 = 6.93 days.
    expect(effectiveLength(10, 10 * Math.LN2)).toBeCloseTo(10.75, 12); // an exponential and two products, rounded
  });

  it('grows with residence, never past its worth, and is proportional to length and pugnacity', () => {
    fc.assert(
      fc.property(length, days, days, fc.double({ min: 0.5, max: 2, noNaN: true }), (cm, one, other, factor) => {
        const early = effectiveLength(cm, Math.min(one, other), factor);
        const late = effectiveLength(cm, Math.max(one, other), factor);
        expect(late).toBeGreaterThanOrEqual(early);
        // A part in 10^14 for the roundings of three products.
        expect(late).toBeLessThanOrEqual(cm * factor * (1 + RESIDENCE_WORTH) * (1 + 1e-14));
        expect(effectiveLength(2 * cm, one, factor)).toBe(2 * effectiveLength(cm, one, factor));
      }),
      { numRuns: runs(300) },
    );
  });
});

describe('chanceOfWinning', () => {
  it('equals have even chances', () => {
    expect(chanceOfWinning(7.3, 7.3)).toBe(0.5);
  });

  it('the chances of both add up to 1, whoever is named first', () => {
    fc.assert(
      fc.property(length, length, (one, other) => {
        // 10^-14: the exponent, up to 75, is right to 10^-14 and where it is large the chance hardly moves.
        expect(Math.abs(chanceOfWinning(one, other) + chanceOfWinning(other, one) - 1)).toBeLessThanOrEqual(1e-14);
      }),
      { numRuns: runs(500) },
    );
  });

  it('more length never lowers the chance, and only the ratio counts', () => {
    fc.assert(
      fc.property(length, length, length, (one, other, opponent) => {
        expect(chanceOfWinning(Math.max(one, other), opponent)).toBeGreaterThanOrEqual(chanceOfWinning(Math.min(one, other), opponent));
        // Doubling is exact in binary, so the ratio is the same number.
        expect(chanceOfWinning(2 * one, 2 * opponent)).toBe(chanceOfWinning(one, opponent));
      }),
      { numRuns: runs(500) },
    );
  });

  it('a steepness of 0 makes every contest even; a greater one makes it clearer', () => {
    expect(chanceOfWinning(20, 10, 0)).toBe(0.5);
    expect(chanceOfWinning(11, 10, 2 * CONTEST_STEEPNESS)).toBeGreaterThan(chanceOfWinning(11, 10));
  });
});
