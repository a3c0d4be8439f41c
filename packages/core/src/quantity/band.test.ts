import { describe, expect, it } from 'vitest';
import { bandOf, DEFAULT_SPREAD, exactly, scaled } from './band.js';
import { BASES } from './basis.js';

describe('bandOf', () => {
  it.each([
    ['measured', 1.05],
    ['derived', 1.1],
    ['imputed', 1.25],
    ['practice', 1.25],
    ['recalled', 1.35],
  ] as const)('a bare %s value gets a band of a factor of %d either way', (basis, spread) => {
    const band = bandOf({ value: 10, unit: 'cm', basis }, 'cm');
    expect(band.centre).toBe(10);
    expect(band.basis).toBe(basis);
    // Relative to the centre, to twelve digits: one division and one product are rounded.
    expect(band.high / 10).toBeCloseTo(spread, 12);
    expect(10 / band.low).toBeCloseTo(spread, 12);
  });

  it('a weaker basis never gets a narrower band', () => {
    const spreads = BASES.map((basis) => DEFAULT_SPREAD[basis]);
    expect(spreads).toEqual([...spreads].sort((one, other) => one - other));
  });

  it('low and high without a value have the centre in the middle', () => {
    expect(bandOf({ low: 18, high: 23, unit: 'cm', basis: 'recalled' }, 'cm')).toEqual({
      low: 18,
      centre: 20.5,
      high: 23,
      basis: 'recalled',
    });
  });

  it('a value between low and high stays the centre, and the spread of the basis has no say', () => {
    expect(bandOf({ low: 8, value: 9, high: 12, unit: 'cm', basis: 'practice' }, 'cm')).toEqual({
      low: 8,
      centre: 9,
      high: 12,
      basis: 'practice',
    });
    expect(bandOf({ low: 8, value: 9, high: 12, unit: 'cm', basis: 'practice' }, 'cm', 3).high).toBe(12);
  });

  it('converts each of the three numbers to the unit wanted', () => {
    const band = bandOf({ low: 1, value: 2, high: 4, unit: '[in_i]', basis: 'measured' }, 'cm');
    expect(band).toEqual({ low: 2.54, centre: 5.08, high: 10.16, basis: 'measured' });
    expect(bandOf({ low: 75.2, high: 80.6, unit: '[degF]' }, 'Cel').centre).toBeCloseTo(25.5, 12); // as exact as binary fractions are
  });

  it("a keeper's reading, which has no basis, is exact and counts as measured", () => {
    expect(bandOf({ value: 240, unit: 'L' }, 'L')).toEqual({ low: 240, centre: 240, high: 240, basis: 'measured' });
  });

  it('a spread that is passed in takes the place of that of the basis', () => {
    expect(bandOf({ value: 10, unit: 'cm', basis: 'recalled' }, 'cm', 2)).toEqual({ low: 5, centre: 10, high: 20, basis: 'recalled' });
    expect(bandOf({ value: 10, unit: 'cm' }, 'cm', 2).high).toBe(20);
  });

  it('throws where there is nothing to read', () => {
    const message = 'bandOf: expected a value, or low and high, received neither';
    expect(() => bandOf({ unit: 'cm' }, 'cm')).toThrow(new RangeError(message));
    expect(() => bandOf({ low: 3, unit: 'cm' }, 'cm')).toThrow(new RangeError(message));
  });
});

describe('exactly and scaled', () => {
  it('an exact number is a band without width', () => {
    expect(exactly(3, 'practice')).toEqual({ low: 3, centre: 3, high: 3, basis: 'practice' });
    expect(exactly(3).basis).toBe('measured');
  });

  it('scaling moves the three numbers and leaves the basis', () => {
    expect(scaled({ low: 1, centre: 2, high: 4, basis: 'derived' }, 3)).toEqual({ low: 3, centre: 6, high: 12, basis: 'derived' });
  });
});
