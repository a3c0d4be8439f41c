import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../../tests/support/runs.js';
import { inventedSpecies } from '../../../tests/support/invented.js';
import { type Band, exactly } from '../../quantity/band.js';
import { kindOf } from '../../stock/kind-of.js';
import type { StockAnimal } from '../../stock/stock.js';
import { lengthBook } from './lengths.js';

const KIND = kindOf(inventedSpecies('unus-primus'));

const animal = (lengthCm: Band, asymptoticCm: Band, ratePerYear: Band): StockAnimal => ({
  id: 'a',
  name: undefined,
  kind: { ...KIND, asymptoticCm, ratePerYear },
  count: 1,
  role: 'resident',
  sex: undefined,
  lengthCm,
  lengthDay: 0,
  entryDay: undefined,
  origin: undefined,
  purchaseDay: undefined,
  leaveDay: Number.POSITIVE_INFINITY,
});

const band = (centre: number, factor: number): Band => ({ low: centre / factor, centre, high: centre * factor, basis: 'practice' });

const factor = fc.constantFrom(1, 1.05, 1.25, 2);
const animals = fc
  .tuple(fc.integer({ min: 20, max: 400 }), factor, fc.integer({ min: 20, max: 400 }), factor, fc.integer({ min: 5, max: 300 }), factor)
  .map(([start, startError, full, fullError, rate, rateError]) =>
    animal(band(start / 10, startError), band(full / 10, fullError), band(rate / 100, rateError)),
  );

describe('lengthBook', () => {
  it('the error of the day itself is that of the reading', () => {
    const entry = lengthBook()(animal(band(10, 1.25), band(40, 1.5), band(0.5, 2)), 0);
    // Kept to the last digits, as logarithms are rounded.
    expect(entry.log).toBeCloseTo(Math.log(10), 12);
    expect(entry.up).toBeCloseTo(Math.log(1.25), 12);
    expect(entry.down).toBeCloseTo(Math.log(1.25), 12);
  });

  it('start, asymptote and rate are independent errors', () => {
    // 40 - 30 e^-0.5 = 21.804 after a year; with 44 cm instead of 40 23.378, with 0.6 instead of 0.5 a year 23.536.
    const entry = lengthBook()(animal(exactly(10), { ...exactly(40), high: 44 }, { ...exactly(0.5), high: 0.6 }), 365.25);
    const [full, rate] = [Math.log((44 - 34 * Math.exp(-0.5)) / 21.80408), Math.log((40 - 30 * Math.exp(-0.6)) / 21.80408)];
    expect(entry.up).toBeCloseTo(Math.sqrt(full * full + rate * rate), 5);
    expect(entry.startUp).toBe(0);
  });

  it('no day’s error reaches beyond all errors at once, and nobody is thought shorter than at the start', () => {
    fc.assert(
      fc.property(animals, fc.integer({ min: 0, max: 5000 }), (one, day) => {
        const { log, up, down, startUp, startDown, longest, shortest } = lengthBook()(one, day);
        // Logarithms are rounded in the sixteenth digit.
        const rounding = 1e-12;
        expect(log + up).toBeLessThanOrEqual(longest + rounding);
        expect(log - down).toBeGreaterThanOrEqual(shortest - rounding);
        expect(startUp).toBeLessThanOrEqual(up + rounding);
        expect(startDown).toBeLessThanOrEqual(down + rounding);
        expect(log - down).toBeGreaterThanOrEqual(Math.log(one.lengthCm?.low ?? Number.NaN) - rounding);
      }),
      { numRuns: runs(1000) },
    );
  });

  it('without a length or a curve there is none', () => {
    expect(lengthBook()({ ...animal(exactly(10), exactly(40), exactly(1)), lengthCm: undefined }, 0).log).toBeNaN();
  });
});
