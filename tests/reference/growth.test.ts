/** Von Bertalanffy growth against published inputs and outputs. */
import { ageAtLength, lengthAfter, lengthAtAge } from '@commensal/core';
import { describe, expect, it } from 'vitest';

/** Half a unit in the last of the digits that a value is given to: a published value is a rounded one. */
const toDigits = (digits: number): number => 0.5 * 10 ** -digits + 1e-12;
const expectRounded = (value: number, published: number, digits: number): void => {
  expect(Math.abs(value - published)).toBeLessThanOrEqual(toDigits(digits));
};

interface Curve {
  readonly source: string;
  readonly linf: number;
  readonly k: number;
  readonly t0: number;
  readonly digits: number;
  /** Age in years, length in cm. */
  readonly rows: readonly (readonly [years: number, cm: number])[];
}

/** The parameters are the sources'; the lengths follow from them by arithmetic done apart from this library. */
const CURVES: readonly Curve[] = [
  {
    source: 'the example inputs of makeGrowthFun in FSA (Ogle et al., R package)',
    linf: 20,
    k: 0.3,
    t0: -0.2,
    digits: 4,
    rows: [
      [0, 1.1647],
      [1, 6.0465],
      [2, 9.663],
      [5, 15.7973],
      [10, 19.0622],
      [20, 19.9533],
    ],
  },
  {
    source: 'the example inputs of VBGF in TropFishR (Mildenberger et al., R package)',
    linf: 80,
    k: 0.6,
    t0: -0.1,
    digits: 4,
    rows: [
      [0, 4.6588],
      [1, 38.6519],
      [2, 57.3077],
      [6, 77.9414],
    ],
  },
  {
    source: 'Zebrasoma scopas, cm TL, of fishflux (Schiettekatte et al. 2020, Functional Ecology 34:1857)',
    linf: 19,
    k: 0.69,
    t0: -0.021,
    digits: 3,
    rows: [
      [0.5, 5.737],
      [1, 9.607],
      [2, 14.289],
      [5, 18.406],
      [10, 18.981],
    ],
  },
  {
    source: 'Zebrasoma flavescens, females, cm TL, of FishBase 06/2018 (Froese & Pauly, eds., ref. 86552)',
    linf: 15.6,
    k: 0.3,
    t0: -1.2,
    digits: 3,
    rows: [
      [0, 4.716],
      [1, 7.537],
      [2, 9.627],
      [5, 13.172],
      [10, 15.058],
      [20, 15.573],
    ],
  },
  {
    source: 'Pterois volitans, North Carolina, cm TL, of FishBase 06/2018 (Froese & Pauly, eds., ref. 104259)',
    linf: 42.5,
    k: 0.47,
    t0: -0.05,
    digits: 2,
    rows: [
      [1, 16.55],
      [2, 26.28],
      [3, 32.36],
      [5, 38.54],
    ],
  },
];

describe.each(CURVES)('von Bertalanffy with $source', ({ linf, k, t0, digits, rows }) => {
  it.each(rows)('at %d years gives %d cm', (years, cm) => {
    expectRounded(lengthAtAge(linf, k, t0, years), cm, digits);
  });

  it('grows from each of these ages to the next as the Fabens form says', () => {
    rows.slice(1).forEach(([years], at) => {
      const [before] = rows[at] as readonly [number, number];
      // The same curve by another formula: only rounding of a few parts in 10^16 lies between.
      expect(lengthAfter(lengthAtAge(linf, k, t0, before), linf, k, years - before)).toBeCloseTo(lengthAtAge(linf, k, t0, years), 10);
    });
  });
});

describe('von Bertalanffy from a size at settlement, in the form of rfishprod (Morais & Bellwood 2018)', () => {
  it.each([
    [0, 2],
    [1, 37.1927],
    [2, 56.5069],
    [6, 77.8687],
  ])('Linf 80, K 0.6, L0 2 at %d years gives %d', (years, cm) => {
    expectRounded(lengthAfter(2, 80, 0.6, years), cm, 4);
  });
});

describe('the inverse, as printed for metaM in FSA (Ogle et al.; data of Cerna et al. 2014)', () => {
  it('Linf 17.71, K 0.78, t0 -0.46 has 13.5 cm at 1.3818805 years', () => {
    expectRounded(ageAtLength(17.71, 0.78, -0.46, 13.5), 1.3818805, 7);
  });

  it('and about 95 % of its asymptote at 3.3861538 years, t0 + 3/K', () => {
    const years = 3.3861538;
    expectRounded(-0.46 + 3 / 0.78, years, 7);
    // e^-3 is 4.979 %: "about 95 %" is 95.02 %.
    expectRounded(lengthAtAge(17.71, 0.78, -0.46, years) / 17.71, 0.9502, 4);
  });

  it('Zebrasoma scopas of fishflux has 10 cm at 1.0619 years', () => {
    expectRounded(ageAtLength(19, 0.69, -0.021, 10), 1.0619, 4);
  });
});

describe('Fabens increments (Fabens 1965) with the parameters above', () => {
  it.each([
    ['Zebrasoma scopas', 10, 19, 0.69, 1, 14.486, 3],
    ['Zebrasoma flavescens', 7, 15.6, 0.3, 1, 9.229, 3],
    ['Pterois volitans', 10, 42.5, 0.47, 1, 22.19, 2],
    ['Pterois volitans', 15, 42.5, 0.47, 0.5, 20.76, 2],
  ])('%s of %d cm, Linf %d, K %d, after %d years has %d cm', (_, start, linf, k, years, cm, digits) => {
    expectRounded(lengthAfter(start, linf, k, years), cm, digits);
  });
});
