import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { convert } from './units.js';

/** The units of each kind. */
const KINDS: Readonly<Record<string, readonly string[]>> = {
  length: ['cm', 'mm', '[in_i]'],
  volume: ['L', '[gal_us]', '[gal_br]'],
  mass: ['kg', 'g', '[lb_av]'],
  temperature: ['Cel', '[degF]'],
  time: ['a', 'd'],
  rate: ['/a'],
  ratio: ['1'],
  acidity: ['[pH]'],
  density: ['kg/L'],
};
const UNITS = Object.entries(KINDS).flatMap(([kind, units]) => units.map((unit) => ({ kind, unit })));

describe('convert', () => {
  it.each([
    [1, '[in_i]', 'cm', 2.54],
    [10, 'mm', 'cm', 1],
    [1, '[gal_us]', 'L', 3.785411784],
    [1, '[gal_br]', 'L', 4.54609],
    [1, '[lb_av]', 'kg', 0.45359237],
    [1000, 'g', 'kg', 1],
    [32, '[degF]', 'Cel', 0],
    [212, '[degF]', 'Cel', 100],
    [-40, 'Cel', '[degF]', -40],
    [1, 'a', 'd', 365.25],
  ])('%d %s in %s is %d, by definition of the units', (value, from, to, expected) => {
    // Twelve decimals: the factors are exact, the product is rounded once or twice in binary.
    expect(convert(value, from, to)).toBeCloseTo(expected, 12);
  });

  it('goes there and back between any two units of a kind', () => {
    const pair = fc
      .constantFrom(...Object.values(KINDS))
      .chain((units) => fc.tuple(fc.constantFrom(...units), fc.constantFrom(...units), fc.double({ min: -1e6, max: 1e6, noNaN: true })));
    fc.assert(
      fc.property(pair, ([from, to, value]) => {
        const back = convert(convert(value, from, to), to, from);
        // Four roundings of half a unit in the last place (2^-53 each); those after adding 32 are as large as for 32 itself.
        expect(Math.abs(back - value)).toBeLessThanOrEqual(4 * 2 ** -52 * (Math.abs(value) + 32));
      }),
      { numRuns: runs(500) },
    );
  });

  it('leaves a number as it is in its own unit', () => {
    for (const { unit } of UNITS) expect(convert(0.1, unit, unit)).toBe(0.1);
  });

  it('throws between units of different kinds, and says what was expected and received', () => {
    let tried = 0;
    for (const one of UNITS) {
      for (const other of UNITS) {
        if (one.kind === other.kind) continue;
        tried += 1;
        expect(() => convert(1, one.unit, other.unit)).toThrow(
          new RangeError(`convert: expected a unit of ${one.kind}, received "${other.unit}", a unit of ${other.kind}`),
        );
      }
    }
    expect(tried).toBeGreaterThan(0);
  });

  it.each(['furlong', '', 'CM', 'constructor', 'toString'])('throws for the unknown unit "%s" on either side, and on both', (unknown) => {
    const message = new RegExp(`^convert: expected a UCUM code among .*cm, mm, .*received "${unknown}"$`);
    expect(() => convert(1, unknown, 'cm')).toThrow(message);
    expect(() => convert(1, 'cm', unknown)).toThrow(message);
    expect(() => convert(1, unknown, unknown)).toThrow(message);
  });
});
