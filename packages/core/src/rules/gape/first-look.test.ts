import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../../tests/support/runs.js';
import { inventedSpecies } from '../../../tests/support/invented.js';
import type { Band } from '../../quantity/band.js';
import { kindOf } from '../../stock/kind-of.js';
import type { StockAnimal } from '../../stock/stock.js';
import { type Barrier, firstLook, marginAtWorst } from './first-look.js';
import { logLengthOf } from './lengths.js';

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

const band = (least: number, most: number): fc.Arbitrary<Band> =>
  fc
    .tuple(fc.integer({ min: least * 100, max: most * 100 }), fc.constantFrom(1, 1.05, 1.25, 2), fc.constantFrom(1, 1.1, 1.35))
    .map(([hundredths, below, above]) => ({
      low: hundredths / 100 / below,
      centre: hundredths / 100,
      high: (hundredths / 100) * above,
      basis: 'practice',
    }));

const animals = fc.tuple(band(2, 40), band(2, 40), band(0.05, 3)).map(([start, full, rate]) => animal(start, full, rate));

const barriers: fc.Arbitrary<Barrier> = fc.record({
  logMouthRatio: fc.double({ min: -1, max: 3, noNaN: true }),
  mouthError: fc.constantFrom(0, 0.1, 0.5),
  logLengthRatioAtWorst: fc.double({ min: -1, max: 2, noNaN: true }),
  sharedCurve: fc.boolean(),
});

describe('firstLook', () => {
  it('is the look at which going through all of them would stop', () => {
    const counts = { none: 0, atOnce: 0, later: 0 };
    fc.assert(
      fc.property(
        animals,
        animals,
        barriers,
        fc.integer({ min: 0, max: 40 }),
        fc.integer({ min: 1, max: 90 }),
        (one, other, barrier, last, apart) => {
          const longer = (day: number) => logLengthOf(one, day);
          const shorter = (day: number) => logLengthOf(other, day);
          const dayOf = (look: number): number => look * apart;
          const found = firstLook(barrier, longer, shorter, { last, dayOf });
          const looks = Array.from({ length: last + 1 }, (_, look) => look);
          const stops = looks.find((look) => marginAtWorst(barrier, longer(dayOf(look)), shorter(dayOf(look))) >= 0);
          counts[stops === undefined ? 'none' : stops === 0 ? 'atOnce' : 'later'] += 1;
          expect(found).toBe(stops);
        },
      ),
      { numRuns: runs(2000) },
    );
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(0);
  });

  it('leaves out parts of a span that are safe for sure', () => {
    const days = new Set<number>();
    const small: Band = { low: 4, centre: 4, high: 4, basis: 'measured' };
    const full: Band = { low: 5, centre: 5, high: 5, basis: 'measured' };
    const one = animal(small, full, full);
    const look = (day: number) => {
      days.add(day);
      return logLengthOf(one, day);
    };
    const barrier: Barrier = { logMouthRatio: Math.log(10), mouthError: 0, logLengthRatioAtWorst: 0, sharedCurve: false };
    expect(firstLook(barrier, look, look, { last: 40, dayOf: (at) => at * 30 })).toBeUndefined();
    expect([...days]).toEqual([0, 1200]);
  });
});
