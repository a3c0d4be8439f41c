import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { lengthAfter } from './length-after.js';
import { ageAtLength, lengthAtAge } from './length-at-age.js';

const asymptotic = fc.double({ min: 1, max: 150, noNaN: true });
const rate = fc.double({ min: 0.03, max: 16, noNaN: true });
const startYears = fc.double({ min: -2, max: 0.5, noNaN: true });
/** Up to 99 % of the asymptote: nearer to it the age hangs on digits that a length does not have. */
const share = fc.double({ min: 0, max: 0.99, noNaN: true });

describe('lengthAtAge and ageAtLength', () => {
  it('the length is 0 at t0', () => {
    expect(lengthAtAge(20, 0.3, -0.2, -0.2)).toBe(0);
    expect(ageAtLength(20, 0.3, -0.2, 0)).toBe(-0.2);
  });

  it('are each other’s inverse', () => {
    fc.assert(
      fc.property(asymptotic, rate, startYears, share, (linf, k, t0, part) => {
        const length = linf * part;
        // A relative 10^-12 of the asymptote: errors of 10^-16 in the exponent, 100 times larger in the logarithm near the end.
        expect(Math.abs(lengthAtAge(linf, k, t0, ageAtLength(linf, k, t0, length)) - length)).toBeLessThanOrEqual(linf * 1e-12);
      }),
      { numRuns: runs(500) },
    );
  });

  it('between two ages the animal grows as lengthAfter says', () => {
    fc.assert(
      fc.property(
        asymptotic,
        rate,
        startYears,
        fc.double({ min: 0.6, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (linf, k, t0, age, years) => {
          const grown = lengthAfter(lengthAtAge(linf, k, t0, age), linf, k, years);
          // A relative 10^-12 of the asymptote: two exponentials instead of one.
          expect(Math.abs(grown - lengthAtAge(linf, k, t0, age + years))).toBeLessThanOrEqual(linf * 1e-12);
        },
      ),
      { numRuns: runs(300) },
    );
  });

  it.each([20, 25, -0.1, Number.NaN])('throws for a length of %d cm below an asymptote of 20 cm', (length) => {
    expect(() => ageAtLength(20, 0.3, -0.2, length)).toThrow(
      new RangeError(`ageAtLength: expected a length from 0 to below 20 cm, received ${length}`),
    );
  });
});
