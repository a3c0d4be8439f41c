import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { ammoniaFromFeed } from './ammonia-from-feed.js';
import { areaForLoad, nitrificationOf } from './nitrification.js';
import { CENTRAL_KINETICS, NITRIFIER_KINETICS } from './nitrifier-kinetics.js';
import { settledAmmonia } from './settled-ammonia.js';

describe('ammoniaFromFeed', () => {
  it('2 g of food with 45 % protein make 0.0828 g of nitrogen a day, 60 kg with 40 % make 2208 g (Timmons)', () => {
    // As printed, four digits; the products are rounded in binary.
    expect(ammoniaFromFeed(2, 0.45)).toBeCloseTo(0.0828, 12);
    expect(ammoniaFromFeed(60_000, 0.4)).toBeCloseTo(2208, 9);
  });

  it('the factor is 0.16 x 0.80 x 0.80 x 0.90, to two digits', () => {
    expect(ammoniaFromFeed(1, 1)).toBeCloseTo(0.16 * 0.8 * 0.8 * 0.9, 3); // 0.09216 is printed as 0.092
  });

  it('no food or no protein, no ammonia', () => {
    expect(ammoniaFromFeed(0, 0.45)).toBe(0);
    expect(ammoniaFromFeed(2, 0)).toBe(0);
  });

  it.each([45, -0.1, 1.01, Number.NaN])('throws for a share of %d', (share) => {
    expect(() => ammoniaFromFeed(2, share)).toThrow(
      new RangeError(`ammoniaFromFeed: expected a share of protein from 0 to 1, received ${share}`),
    );
  });
});

describe('nitrificationOf and areaForLoad', () => {
  it('0.0828 g a day need 0.296 m2 at the 0.28 g a day and m2 of Nijhof & Bovendeur', () => {
    expect(areaForLoad(0.0828)).toBeCloseTo(0.296, 3); // as printed
    expect(areaForLoad(0.0828, 0.69)).toBeCloseTo(0.12, 3); // their rate in fresh water
  });

  it('are each other’s inverse, at any rate', () => {
    const positive = fc.double({ min: 0.001, max: 100, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (load, rate) => {
        // A relative 10^-15: two roundings.
        expect(Math.abs(nitrificationOf(areaForLoad(load, rate), rate) / load - 1)).toBeLessThanOrEqual(1e-15);
        expect(Math.abs(nitrificationOf(areaForLoad(load)) / load - 1)).toBeLessThanOrEqual(1e-15);
      }),
      { numRuns: runs(200) },
    );
  });
});

describe('NITRIFIER_KINETICS', () => {
  it('are bands from memory, centre inside, and growth always outruns decay', () => {
    for (const band of Object.values(NITRIFIER_KINETICS)) {
      expect(band.low).toBeLessThan(band.centre);
      expect(band.centre).toBeLessThan(band.high);
      expect(band.basis).toBe('recalled');
    }
    expect(NITRIFIER_KINETICS.growthPerDay.low).toBeGreaterThan(NITRIFIER_KINETICS.decayPerDay.high);
  });

  it('say that nitrifiers double in one, two or three days', () => {
    const { low, centre, high } = NITRIFIER_KINETICS.growthPerDay;
    // Two digits, as the band is written.
    expect(low).toBeCloseTo(Math.LN2 / 3, 2);
    expect(centre).toBeCloseTo(Math.LN2 / 2, 2);
    expect(high).toBeCloseTo(Math.LN2, 2);
  });
});

describe('settledAmmonia', () => {
  it('with room on the media, growth balances decay whatever the load, and capacity follows the load', () => {
    // K d / (mu - d) = 0.6 x 0.03 / 0.32; mu / d = 35 / 3. Twelve decimals: quotients are rounded.
    expect(settledAmmonia(0.08).mgPerL).toBeCloseTo(0.05625, 12);
    expect(settledAmmonia(0.01).mgPerL).toBe(settledAmmonia(0.08).mgPerL);
    expect(settledAmmonia(0.03).capacityGramsPerDay).toBeCloseTo(0.35, 12);
  });

  it('with the media full, half of what they hold leaves the half-saturation in the water', () => {
    expect(settledAmmonia(0.07, 0.14)).toEqual({ mgPerL: 0.6, capacityGramsPerDay: 0.14 });
  });

  it('the two meet where the media just fill', () => {
    const load = (0.14 * CENTRAL_KINETICS.decayPerDay) / CENTRAL_KINETICS.growthPerDay;
    // Nine decimals: a difference of 10^-9 of the load on either side.
    expect(settledAmmonia(load * (1 - 1e-9), 0.14).mgPerL).toBeCloseTo(settledAmmonia(load * (1 + 1e-9), 0.14).mgPerL, 9);
  });

  it('more than the media hold is never carried; nor anything by nitrifiers that die faster than they grow', () => {
    expect(settledAmmonia(0.14, 0.14)).toEqual({ mgPerL: Number.POSITIVE_INFINITY, capacityGramsPerDay: 0.14 });
    const dying = { growthPerDay: 0.02, halfMgPerL: 0.6, decayPerDay: 0.03 };
    expect(settledAmmonia(0.01, 1, dying)).toEqual({ mgPerL: Number.POSITIVE_INFINITY, capacityGramsPerDay: 0 });
  });

  it('without a load there is neither ammonia nor anything that lives on it', () => {
    expect(settledAmmonia(0)).toEqual({ mgPerL: 0, capacityGramsPerDay: 0 });
  });

  it('what comes in is what is nitrified, and ammonia never falls with load nor rises with media', () => {
    const amount = fc.double({ min: 0.001, max: 10, noNaN: true });
    fc.assert(
      fc.property(amount, amount, amount, (load, holds, more) => {
        const { mgPerL, capacityGramsPerDay } = settledAmmonia(load, holds);
        if (mgPerL < Number.POSITIVE_INFINITY) {
          // A relative 10^-12 of what the media hold: near full, load over what is left loses digits, which the product gives back.
          const nitrified = (capacityGramsPerDay * mgPerL) / (CENTRAL_KINETICS.halfMgPerL + mgPerL);
          expect(Math.abs(nitrified - load)).toBeLessThanOrEqual(1e-12 * holds);
        }
        // A part in 10^12: the two closed forms meet to rounding.
        expect(settledAmmonia(load + more, holds).mgPerL * (1 + 1e-12)).toBeGreaterThanOrEqual(mgPerL);
        expect(settledAmmonia(load, holds + more).mgPerL).toBeLessThanOrEqual(mgPerL * (1 + 1e-12));
      }),
      { numRuns: runs(500) },
    );
  });
});
