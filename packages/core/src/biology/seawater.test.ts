import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { asAmmonia, asNitrogen } from './ammonia-as.js';
import { oxygenSaturation, oxygenSaturationWeiss } from './oxygen-saturation.js';
import { CONDUCTIVITY_35, salinityFromConductivity, salinityFromRatio } from './salinity.js';
import { seawaterDensity } from './seawater-density.js';
import { salinityFromSpecificGravity, specificGravity } from './specific-gravity.js';
import { temperature68 } from './temperature-68.js';
import { unIonisedShare, unIonisedShareFresh } from './un-ionised-share.js';

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
/** A step that is large against rounding. */
const step = between(1e-6, 2);
const pH = between(6.5, 9.5);
const temperature = between(0, 38);
const salinity = between(0, 40);

describe('unIonisedShare and unIonisedShareFresh', () => {
  it('half is un-ionised where pH equals pKa', () => {
    expect(unIonisedShare(10.0423, 0, 0)).toBe(0.5);
    expect(unIonisedShareFresh(0.09018 + 2729.92 / 298.15, 25)).toBe(0.5);
  });

  it('rise with pH and temperature, fall with salinity, and lie between 0 and 1', () => {
    fc.assert(
      fc.property(pH, temperature, salinity, step, (acid, warm, salt, more) => {
        const share = unIonisedShare(acid, warm, salt);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
        expect(unIonisedShare(acid + more, warm, salt)).toBeGreaterThan(share);
        expect(unIonisedShare(acid, warm + more, salt)).toBeGreaterThan(share);
        expect(unIonisedShare(acid, warm, salt + more)).toBeLessThan(share);
        expect(unIonisedShareFresh(acid + more, warm)).toBeGreaterThan(unIonisedShareFresh(acid, warm));
        expect(unIonisedShareFresh(acid, warm + more)).toBeGreaterThan(unIonisedShareFresh(acid, warm));
      }),
      { numRuns: runs(500) },
    );
  });

  it('one unit of pH multiplies the odds by ten', () => {
    fc.assert(
      fc.property(pH, temperature, salinity, (acid, warm, salt) => {
        const odds = (share: number): number => share / (1 - share);
        const ratio = odds(unIonisedShare(acid + 1, warm, salt)) / odds(unIonisedShare(acid, warm, salt));
        // A relative 10^-12: exponents of up to 9 times ln 10 are right to 10^-14, 1 less the share loses a digit more.
        expect(Math.abs(ratio / 10 - 1)).toBeLessThanOrEqual(1e-12);
      }),
      { numRuns: runs(300) },
    );
  });
});

describe('asAmmonia and asNitrogen', () => {
  it('17.031 g of ammonia hold 14.007 g of nitrogen', () => {
    expect(asAmmonia(14.007)).toBeCloseTo(17.031, 12); // a quotient and a product, rounded
    expect(asNitrogen(17.031)).toBeCloseTo(14.007, 12); // two quotients, rounded
  });

  it('differ by the factor 1.2159', () => {
    expect(asAmmonia(1)).toBeCloseTo(1.2159, 4); // as printed
  });

  it('are each other’s inverse', () => {
    fc.assert(
      fc.property(between(0, 100), (amount) => {
        // A relative 10^-15: two roundings.
        expect(Math.abs(asNitrogen(asAmmonia(amount)) - amount)).toBeLessThanOrEqual(amount * 1e-15);
      }),
      { numRuns: runs(200) },
    );
  });
});

describe('oxygenSaturation and oxygenSaturationWeiss', () => {
  it('fall with temperature and with salinity', () => {
    fc.assert(
      fc.property(temperature, salinity, step, (warm, salt, more) => {
        for (const saturation of [oxygenSaturation, oxygenSaturationWeiss]) {
          expect(saturation(warm + more, salt)).toBeLessThan(saturation(warm, salt));
          expect(saturation(warm, salt + more)).toBeLessThan(saturation(warm, salt));
        }
      }),
      { numRuns: runs(300) },
    );
  });

  it('agree within 0.4 % where aquaria are kept', () => {
    fc.assert(
      fc.property(between(10, 34), between(0, 40), (warm, salt) => {
        // 0.4 % is how far the two published formulas lie apart: 0.374 % in this range, 0.424 % at 0 °C and salinity 40.
        expect(Math.abs(oxygenSaturation(warm, salt) / oxygenSaturationWeiss(warm, salt) - 1)).toBeLessThan(0.004);
      }),
      { numRuns: runs(300) },
    );
  });
});

describe('salinityFromRatio and salinityFromConductivity', () => {
  it('rise with conductivity, and fall with the temperature at which it was measured', () => {
    fc.assert(
      // Ratios that belong to salinities of 2 to 42.
      fc.property(between(0.1, 1.2), between(0, 33), step, between(0, 1000), (ratio, warm, more, deep) => {
        const at = salinityFromRatio(ratio, warm, deep);
        expect(salinityFromRatio(ratio + more / 10, warm, deep)).toBeGreaterThan(at);
        expect(salinityFromRatio(ratio, warm + more, deep)).toBeLessThan(at);
      }),
      { numRuns: runs(300) },
    );
  });

  it('42.914 mS/cm is the ratio 1', () => {
    expect(salinityFromConductivity(CONDUCTIVITY_35, 20)).toBe(salinityFromRatio(1, 20));
    expect(salinityFromConductivity(2 * CONDUCTIVITY_35, 20, 100)).toBe(salinityFromRatio(2, 20, 100));
  });

  it.each([-0.1, Number.NaN])('throw for %d', (wrong) => {
    expect(() => salinityFromRatio(wrong, 20)).toThrow(
      new RangeError(`salinityFromRatio: expected a ratio of conductivities of 0 or more, received ${wrong}`),
    );
    expect(() => salinityFromConductivity(wrong, 20)).toThrow(
      new RangeError(`salinityFromConductivity: expected a conductivity of 0 mS/cm or more, received ${wrong}`),
    );
  });
});

describe('seawaterDensity and specificGravity', () => {
  it('rise with salinity; at salinities of the sea, fall with temperature', () => {
    fc.assert(
      // Above salinity 24.7 water has no greatest density above freezing.
      fc.property(between(25, 40), temperature, step, (salt, warm, more) => {
        expect(seawaterDensity(salt + more, warm)).toBeGreaterThan(seawaterDensity(salt, warm));
        expect(seawaterDensity(salt, warm + more)).toBeLessThan(seawaterDensity(salt, warm));
      }),
      { numRuns: runs(300) },
    );
  });

  it('pure water is heaviest at 4 °C, and has specific gravity 1 against itself', () => {
    expect(seawaterDensity(0, 4)).toBeGreaterThan(seawaterDensity(0, 3));
    expect(seawaterDensity(0, 4)).toBeGreaterThan(seawaterDensity(0, 5));
    expect(specificGravity(0, 20, 20)).toBe(1);
  });

  it.each([-1, Number.NaN])('throw for a salinity of %d', (wrong) => {
    const error = new RangeError(`seawaterDensity: expected a salinity of 0 or more, received ${wrong}`);
    expect(() => seawaterDensity(wrong, 25)).toThrow(error);
    expect(() => specificGravity(wrong, 25, 25)).toThrow(error);
  });

  it('uses the scale of 1968, 6 thousandths of a degree above that of 1990 at 25 °C', () => {
    expect(temperature68(25)).toBeCloseTo(25.006, 12); // one product, rounded
    expect(temperature68(0)).toBe(0);
  });
});

describe('salinityFromSpecificGravity', () => {
  it('is the inverse of specificGravity', () => {
    fc.assert(
      fc.property(between(0, 45), between(5, 35), fc.constantFrom(4, 15, 60 / 1.8 - 32 / 1.8, 20, 25), (salt, warm, reference) => {
        const found = salinityFromSpecificGravity(specificGravity(salt, warm, reference), warm, reference);
        // The bracket is narrower than 10^-9; rounding of the gravity adds 10^-12.
        expect(Math.abs(found - salt)).toBeLessThanOrEqual(1e-9);
      }),
      { numRuns: runs(300) },
    );
  });

  it('the same reading in warmer water means more salt', () => {
    fc.assert(
      fc.property(between(1.015, 1.03), between(15, 30), step, (reading, warm, more) => {
        // Both are within 10^-9; steps from 10^-6 °C move salinity by 10^-7 or more.
        expect(salinityFromSpecificGravity(reading, warm + more, 25)).toBeGreaterThan(salinityFromSpecificGravity(reading, warm, 25));
      }),
      { numRuns: runs(300) },
    );
  });

  it.each([0.99, 1.2, 35, Number.NaN])('throws for %d, which no seawater shows', (reading) => {
    expect(() => salinityFromSpecificGravity(reading, 25, 25)).toThrow(
      new RegExp(`^salinityFromSpecificGravity: expected a reading from 1 to 1\\.03.*, received ${reading}$`),
    );
  });
});
