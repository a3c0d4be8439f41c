import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { type Band, exactly } from './band.js';
import { logDown, logUp, together } from './log-errors.js';
import { ratioOf } from './ratio.js';

const band: fc.Arbitrary<Band> = fc
  .tuple(
    fc.double({ min: 0.01, max: 1000, noNaN: true }),
    fc.double({ min: 1, max: 3, noNaN: true }),
    fc.double({ min: 1, max: 3, noNaN: true }),
  )
  .map(([centre, down, up]) => ({ low: centre / down, centre, high: centre * up, basis: 'measured' }));

describe('together', () => {
  it('independent errors add in quadrature', () => {
    expect(together(3, 4)).toBe(5);
    expect(together(1, 2, 2)).toBe(3);
  });

  it('nothing gives nothing, one gives itself', () => {
    expect(together()).toBe(0);
    expect(together(0.25)).toBe(0.25);
  });

  it('is no less than the largest error and no more than their sum', () => {
    const errors = fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(errors, (all) => {
        // A part in 10^12 for the roundings of squares and root; squares of less than 10^-150 lose digits, then vanish.
        expect(together(...all)).toBeGreaterThanOrEqual(Math.max(...all) * (1 - 1e-12) - 1e-150);
        expect(together(...all)).toBeLessThanOrEqual(all.reduce((sum, error) => sum + error, 0) * (1 + 1e-12) + 1e-150);
      }),
      { numRuns: runs(300) },
    );
  });
});

describe('logUp and logDown', () => {
  it('are the logarithms of how far each end lies from the centre', () => {
    const uneven: Band = { low: 5, centre: 10, high: 10 * Math.E, basis: 'measured' };
    expect(logDown(uneven)).toBeCloseTo(Math.LN2, 14); // one rounding of the quotient
    expect(logUp(uneven)).toBeCloseTo(1, 14); // one rounding of the quotient
  });
});

describe('ratioOf', () => {
  it('divides the centres and adds the opposite ends in quadrature', () => {
    const above: Band = { low: 10 / Math.exp(0.03), centre: 10, high: 10 * Math.exp(0.3), basis: 'measured' };
    const below: Band = { low: 4 / Math.exp(0.4), centre: 4, high: 4 * Math.exp(0.04), basis: 'practice' };
    const ratio = ratioOf(above, below);
    expect(ratio.centre).toBe(2.5);
    expect(ratio.basis).toBe('practice');
    // Twelve decimals: exponentials and logarithms are right to about 10^-16 each.
    expect(Math.log(ratio.centre / ratio.low)).toBeCloseTo(0.05, 12);
    expect(Math.log(ratio.high / ratio.centre)).toBeCloseTo(0.5, 12);
  });

  it('over an exact number only scales', () => {
    const ratio = ratioOf({ low: 8, centre: 10, high: 14, basis: 'derived' }, exactly(2));
    // Twelve decimals: the ends go through logarithms and back.
    expect(ratio.low).toBeCloseTo(4, 12);
    expect(ratio.centre).toBe(5);
    expect(ratio.high).toBeCloseTo(7, 12);
    expect(ratio.basis).toBe('derived');
  });

  it('never claims more than the worst corner, nor less than the wider of the two bands', () => {
    fc.assert(
      fc.property(band, band, (above, below) => {
        const { low, high } = ratioOf(above, below);
        const slack = 1 + 1e-12; // roundings of logarithm and exponential
        expect(low * slack).toBeGreaterThanOrEqual(above.low / below.high);
        expect(high).toBeLessThanOrEqual((above.high / below.low) * slack);
        expect(low).toBeLessThanOrEqual(
          (above.centre / below.centre / Math.max(above.centre / above.low, below.high / below.centre)) * slack,
        );
      }),
      { numRuns: runs(300) },
    );
  });
});
