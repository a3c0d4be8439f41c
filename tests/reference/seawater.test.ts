/** The chemistry of seawater against published check values. */
import { describe, expect, it } from 'vitest';
import { oxygenSaturation, oxygenSaturationWeiss } from '../../packages/core/src/biology/oxygen-saturation.js';
import { salinityFromConductivity, salinityFromRatio } from '../../packages/core/src/biology/salinity.js';
import { seawaterDensity } from '../../packages/core/src/biology/seawater-density.js';
import { salinityFromSpecificGravity, specificGravity } from '../../packages/core/src/biology/specific-gravity.js';
import { unIonisedShare, unIonisedShareFresh } from '../../packages/core/src/biology/un-ionised-share.js';

/** Published tables give temperatures on the scale of 1968. */
const from68 = (temperature: number): number => temperature / 1.00024;

/** Half a unit of the last printed digit, with room for binary fractions. */
const half = (digits: number): number => 0.500001 * 10 ** -digits;

function within(value: number, published: number, tolerance: number): void {
  expect(Math.abs(value - published), `${value} against ${published}`).toBeLessThanOrEqual(tolerance);
}

describe('practical salinity, PSS-78', () => {
  // Fofonoff & Millard 1983, UNESCO Technical Papers in Marine Science 44, page 9; the last digits from an independent program.
  it.each([
    { ratio: 1, temperature: 15, pressure: 0, salinity: 34.99999992 },
    { ratio: 1.2, temperature: 20, pressure: 2000, salinity: 37.24562765 },
    { ratio: 0.65, temperature: 5, pressure: 1500, salinity: 27.99534693 },
  ])('ratio $ratio at $temperature °C and $pressure dbar is $salinity', ({ ratio, temperature, pressure, salinity }) => {
    within(salinityFromRatio(ratio, from68(temperature), pressure), salinity, half(8)); // as printed
  });

  // UNESCO 44, check value at the end of the pressure range, 4 decimals; and the example of the R package marelac.
  it.each([
    { ratio: 1.888091, temperature: 40, pressure: 10000, salinity: 40, digits: 4 },
    { ratio: 0.6990725, temperature: 10, pressure: 0, salinity: 26.8609, digits: 4 },
  ])('ratio $ratio at $temperature °C and $pressure dbar is $salinity', ({ ratio, temperature, pressure, salinity, digits }) => {
    within(salinityFromRatio(ratio, from68(temperature), pressure), salinity, half(digits)); // as printed
  });

  // UNESCO 44, page 14. The row of 25, 0 °C, 0 dbar as handed down (0.498088) is left out: it would be 25.0044.
  it.each([
    { ratio: 0.65499, temperature: 10, pressure: 0, salinity: 25 },
    { ratio: 0.506244, temperature: 0, pressure: 1000, salinity: 25 },
    { ratio: 0.662975, temperature: 10, pressure: 1000, salinity: 25 },
    { ratio: 1.000073, temperature: 10, pressure: 0, salinity: 40 },
    { ratio: 1.529967, temperature: 30, pressure: 0, salinity: 40 },
  ])(
    'ratio $ratio at $temperature °C and $pressure dbar is $salinity, to the digits of the ratio',
    ({ ratio, temperature, pressure, salinity }) => {
      // The ratio is printed to half of 10^-6, and salinity moves 40 to 60 times as fast.
      within(salinityFromRatio(ratio, from68(temperature), pressure), salinity, 60 * half(6));
    },
  );

  it('conductivity, mS/cm: 42.914 at 15 °C is 35 by definition; 53.0 and 53.087 at 25 °C are 34.952 and 35.017', () => {
    within(salinityFromConductivity(42.914, from68(15)), 35, half(6)); // PSS-78 itself gives 34.99999992
    // Computed from the formula by others, three decimals, temperature on the scale of 1968.
    within(salinityFromConductivity(53, from68(25)), 34.952, half(3));
    within(salinityFromConductivity(53.087, from68(25)), 35.017, half(3));
  });
});

describe('density at the surface, EOS-80', () => {
  // UNESCO 44, page 22; the last digits from an independent program.
  it.each([
    { salinity: 0, temperature: 0, density: 999.842594, digits: 6 },
    { salinity: 0, temperature: 30, density: 995.65113374, digits: 8 },
    { salinity: 35, temperature: 0, density: 1028.10633141, digits: 8 },
    { salinity: 35, temperature: 30, density: 1021.72863949, digits: 8 },
  ])('salinity $salinity at $temperature °C weighs $density kg/m3', ({ salinity, temperature, density, digits }) => {
    within(seawaterDensity(salinity, from68(temperature)), density, half(digits)); // as printed
  });

  // Check values of UNESCO 44, from memory.
  it.each([
    { salinity: 35, temperature: 5, density: 1027.67547 },
    { salinity: 35, temperature: 25, density: 1023.34306 },
    { salinity: 0, temperature: 5, density: 999.96675 },
  ])('salinity $salinity at $temperature °C weighs $density kg/m3', ({ salinity, temperature, density }) => {
    within(seawaterDensity(salinity, from68(temperature)), density, half(5)); // as printed
  });

  it('taking a reading on the scale of 1990 for one of 1968 would shift 1023.3412 to 1023.34306', () => {
    within(seawaterDensity(35, 25), 1023.3412, half(4)); // as printed
  });

  it('agrees with TEOS-10', () => {
    // The example of the GSW toolbox: absolute salinity 34.7118 g/kg, 28.7856 °C, at 10 dbar, which press 1021.84 kg/m3 by 0.043 kg/m3
    // (4.25e-5 of it, from memory). 0.01 kg/m3 is what the equation of the surface is good to.
    within(seawaterDensity((34.7118 * 35) / 35.16504, 28.7856) + 0.043, 1021.840173185531, 0.01);
  });
});

describe('specific gravity', () => {
  const SCALES = [
    { scale: '25/25 °C', water: 25, reference: 25 },
    { scale: '20/20 °C', water: 20, reference: 20 },
    { scale: '60/60 °F', water: (60 - 32) / 1.8, reference: (60 - 32) / 1.8 },
    { scale: '25/4 °C', water: 25, reference: 4 },
  ];
  // Computed from EOS-80 by an independent program, four decimals.
  const TABLE: readonly (readonly number[])[] = [
    [25, 1.0188, 1.019, 1.0192, 1.0158],
    [30, 1.0226, 1.0228, 1.023, 1.0196],
    [33, 1.0249, 1.0251, 1.0253, 1.0219],
    [34, 1.0256, 1.0258, 1.0261, 1.0226],
    [35, 1.0264, 1.0266, 1.0269, 1.0234],
    [36, 1.0271, 1.0274, 1.0276, 1.0241],
  ];
  const cells = TABLE.flatMap(([salinity = 0, ...values]) =>
    SCALES.map((scale, at) => ({ ...scale, salinity, gravity: values[at] ?? Number.NaN })),
  );

  it.each(cells)('of salinity $salinity at $scale is $gravity', ({ salinity, water, reference, gravity }) => {
    within(specificGravity(salinity, water, reference), gravity, half(4)); // as printed
  });

  it.each([
    { scale: '25/25 °C', water: 25, reference: 25, salinity: 33.2 },
    { scale: '20/20 °C', water: 20, reference: 20, salinity: 32.9 },
    { scale: '25/4 °C', water: 25, reference: 4, salinity: 37.2 },
  ])('a hydrometer that shows 1.025 at $scale floats in salinity $salinity', ({ water, reference, salinity }) => {
    within(salinityFromSpecificGravity(1.025, water, reference), salinity, half(1)); // as printed
  });
});

describe('un-ionised share of ammonia', () => {
  // Bower & Bidwell 1978, salinity 34, as reprinted in the booklets of marine test kits: per cent at 10, 15, 20, 25 °C.
  const TABLE: readonly (readonly number[])[] = [
    [7.5, 0.459, 0.665, 0.963, 1.39],
    [7.6, 0.577, 0.836, 1.21, 1.75],
    [7.7, 0.726, 1.05, 1.52, 2.19],
    [7.8, 0.912, 1.32, 1.9, 2.74],
    [7.9, 1.15, 1.66, 2.39, 3.43],
    [8.0, 1.44, 2.07, 2.98, 4.28],
    [8.1, 1.8, 2.6, 3.73, 5.32],
    [8.2, 2.26, 3.25, 4.65, 6.61],
    [8.3, 2.83, 4.06, 5.78, 8.18],
    [8.4, 3.54, 5.05, 7.17, 10.1],
    [8.5, 4.41, 6.28, 8.87, 12.4],
  ];
  const cells = TABLE.flatMap(([pH = 0, ...values]) =>
    [10, 15, 20, 25].map((temperature, at) => ({ pH, temperature, percent: values[at] ?? Number.NaN })),
  );

  it.each(cells)('in seawater at pH $pH and $temperature °C is $percent %, as Bower & Bidwell have it', ({ pH, temperature, percent }) => {
    // 1.8 % is how far the two fits of one equilibrium lie apart; the table is printed to three digits, half of the last on top.
    const printed = half(percent < 1 ? 3 : percent < 10 ? 2 : 1);
    within(100 * unIonisedShare(pH, temperature, 34), percent, 0.018 * percent + printed);
  });

  // Emerson et al. 1975, the table as reprinted by extension services. Its column of 32 °C does not follow the formula and is left out.
  it.each([
    { pH: 8, temperature: 10, share: 0.0182 },
    { pH: 8, temperature: 20, share: 0.0381 },
    { pH: 8, temperature: 24, share: 0.0502 },
    { pH: 8, temperature: 26, share: 0.0574 },
    { pH: 8, temperature: 28, share: 0.0654 },
    { pH: 8, temperature: 30, share: 0.0743 },
    { pH: 8.2, temperature: 24, share: 0.0772 },
    { pH: 8.2, temperature: 26, share: 0.088 },
    { pH: 8.2, temperature: 28, share: 0.0998 },
  ])('in fresh water at pH $pH and $temperature °C is $share, as Emerson et al. have it', ({ pH, temperature, share }) => {
    within(unIonisedShareFresh(pH, temperature), share, half(4)); // as printed; 2727.92 for 2729.92 would give 0.0509 at 24 °C
  });

  it('in seawater at 26 °C and salinity 35 is 0.0447, 0.0691, 0.0855 at pH 8.0, 8.2, 8.3', () => {
    // Computed from the equation of Bell et al. 2007 by an independent program, four decimals.
    within(unIonisedShare(8, 26, 35), 0.0447, half(4));
    within(unIonisedShare(8.2, 26, 35), 0.0691, half(4));
    within(unIonisedShare(8.3, 26, 35), 0.0855, half(4));
  });

  it('agrees with Clegg & Whitfield 1995 on the free scale, 0.0440 and 0.0282 at 25 °C and salinity 35', () => {
    // 5 %, which Clegg & Whitfield state for their constant, and the 1.8 % above.
    within(unIonisedShare(8, 25, 35), 0.044, 0.068 * 0.044);
    within(unIonisedShare(7.8, 25, 35), 0.0282, 0.068 * 0.0282);
  });
});

describe('oxygen saturation', () => {
  // Weiss 1970, the table of the paper, mL/L.
  it.each([
    { salinity: 20, temperature: -1, mlPerL: 9.162 },
    { salinity: 40, temperature: -1, mlPerL: 7.984 },
    { salinity: 20, temperature: 10, mlPerL: 6.95 },
    { salinity: 40, temperature: 10, mlPerL: 6.121 },
    { salinity: 20, temperature: 20, mlPerL: 5.644 },
    { salinity: 40, temperature: 20, mlPerL: 5.015 },
    { salinity: 20, temperature: 40, mlPerL: 4.05 },
    { salinity: 40, temperature: 40, mlPerL: 3.656 },
  ])('after Weiss at salinity $salinity and $temperature °C is $mlPerL mL/L', ({ salinity, temperature, mlPerL }) => {
    within(oxygenSaturationWeiss(temperature, salinity) / 1.4276, mlPerL, half(3)); // as printed
  });

  // Benson & Krause 1984 and Weiss 1970, computed by an independent program, three decimals, mg/L: in fresh water, at salinity 35 after
  // either, at salinity 36.
  it.each([
    { temperature: 0, fresh: 14.621, sea: 11.446, weiss: 11.485, saltier: 11.366 },
    { temperature: 10, fresh: 11.288, sea: 9.024, weiss: 9.02, saltier: 8.967 },
    { temperature: 20, fresh: 9.092, sea: 7.396, weiss: 7.374, saltier: 7.353 },
    { temperature: 24, fresh: 8.418, sea: 6.889, weiss: 6.865, saltier: 6.85 },
    { temperature: 25, fresh: 8.263, sea: 6.772, weiss: 6.748, saltier: 6.734 },
    { temperature: 26, fresh: 8.114, sea: 6.659, weiss: 6.634, saltier: 6.621 },
    { temperature: 28, fresh: 7.828, sea: 6.442, weiss: 6.418, saltier: 6.406 },
    { temperature: 30, fresh: 7.559, sea: 6.237, weiss: 6.214, saltier: 6.202 },
  ])('at $temperature °C is $fresh mg/L in fresh water and $sea at salinity 35', ({ temperature, fresh, sea, weiss, saltier }) => {
    within(oxygenSaturation(temperature, 0), fresh, half(3)); // as printed
    within(oxygenSaturation(temperature, 35), sea, half(3)); // as printed
    within(oxygenSaturationWeiss(temperature, 35), weiss, half(3)); // as printed
    within(oxygenSaturation(temperature, 36), saltier, half(3)); // as printed
  });

  it('agrees with Sarmiento & Gruber 2006, table 3.2.4: 359.1 and 230.5 mmol/m3 at 0 and 20 °C, salinity 35', () => {
    // 0.4 % is how far the published formulas lie apart; 31.998 g/mol.
    for (const saturation of [oxygenSaturation, oxygenSaturationWeiss]) {
      within(saturation(0, 35) / 0.031998, 359.1, 0.004 * 359.1);
      within(saturation(20, 35) / 0.031998, 230.5, 0.004 * 230.5);
    }
  });

  it('agrees with the example of the GSW toolbox: 194.9651126 µmol/kg at 28.7856 °C, absolute salinity 34.7118', () => {
    // 0.05 %: the same data in another fit; the density is that of the example, 1021.84 kg/m3.
    const mgPerL = 194.9651126 * 0.031998 * 1.02184;
    within(oxygenSaturation(28.7856, (34.7118 * 35) / 35.16504), mgPerL, 0.0005 * mgPerL);
  });
});
