import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { exact, PEACEFUL, range, recordWith, resident, situationWith, TANK } from '../../tests/support/scene.js';
import { dayOf } from '../quantity/days.js';
import { libraryOf } from '../stock/library.js';
import { stockOf } from '../stock/stock-of.js';
import type { Stock } from '../stock/stock.js';
import { freeShelter, refugeOf } from './refuge.js';

type Conduct = NonNullable<SpeciesRecord['conduct']>;

const DATE = dayOf('2027-03-01');

const claimant = (id: string, claim: Conduct['rockClaim'], more: Partial<Conduct> = {}): SpeciesRecord =>
  recordWith(id, {
    kinGroup: { value: id, basis: 'practice' },
    conduct: { pugnacity: PEACEFUL, ...(claim === undefined ? {} : { rockClaim: claim }), ...more },
  });

const stockWith = (records: readonly SpeciesRecord[], more: Partial<Situation> = {}): Stock =>
  stockOf(situationWith({ residents: records.map(({ id }) => resident(id, 10)), ...more }), libraryOf(records)).stock;

const target = claimant('unus-primus', exact(4, 'L'));
const strong = claimant('vicinus-primus', exact(6, 'L'));

describe('refugeOf', () => {
  it('attackers keep it off all within their reach, on 20 L of rock', () => {
    const stock = stockWith([target, strong]);
    const [own, other] = stock.animals;
    expect(refugeOf(stock, own!, [{ animal: other!, reach: 1 }], [], DATE)).toMatchObject({
      leftL: 14,
      wantedL: 4,
      spareL: 10,
      spareAtWorstL: 10,
      missing: [],
    });
    expect(refugeOf(stock, own!, [{ animal: other!, reach: 3 }], [], DATE)).toMatchObject({ leftL: 2, spareL: -2 });
  });

  it('others count by likeness, with the weights of rock-crowding as the settings have them', () => {
    const congener = claimant('unus-secundus', exact(10, 'L'));
    const stranger = claimant('zonatus-primus', exact(10, 'L'));
    const stock = stockWith([target, congener, stranger]);
    const others = stock.animals.slice(1);
    expect(refugeOf(stock, stock.animals[0]!, [], others, DATE).leftL).toBe(12);
    const told = stockWith([target, congener, stranger], { settings: { thresholds: { 'rock-crowding': { genus: 0.5 } } } });
    expect(refugeOf(told, told.animals[0]!, [], told.animals.slice(1), DATE).leftL).toBe(15);
  });

  it('a line of three claims three times, a pair once', () => {
    const held = (kind: 'any' | 'pair'): number => {
      const line = claimant('vicinus-primus', exact(2, 'L'), { company: { kind, basis: 'practice' } });
      const stock = stockWith([target, line], { residents: [resident('unus-primus', 10), resident('vicinus-primus', 10, { count: 3 })] });
      return 20 - refugeOf(stock, stock.animals[0]!, [{ animal: stock.animals[1]!, reach: 1 }], [], DATE).leftL;
    };
    expect(held('any')).toBe(6);
    expect(held('pair')).toBe(2);
  });

  it('half-grown animals claim a quarter, and those without a length all', () => {
    const stock = stockWith([target, strong], { residents: [resident('unus-primus', 5), { id: 'x', species: 'vicinus-primus' }] });
    expect(refugeOf(stock, stock.animals[0]!, [{ animal: stock.animals[1]!, reach: 1 }], [], DATE)).toMatchObject({
      leftL: 14,
      wantedL: 1,
    });
  });

  it('independent errors add in squares', () => {
    const rough = claimant('vicinus-primus', { ...range(5, 9, 'L'), value: 6 });
    const stock = stockWith([target, rough], { tank: { ...TANK, rock: { envelope: { value: 20, low: 16, high: 24, unit: 'L' } } } });
    // 4 L of rock and 3 L of claim.
    expect(refugeOf(stock, stock.animals[0]!, [{ animal: stock.animals[1]!, reach: 1 }], [], DATE).spareAtWorstL).toBeCloseTo(10 - 5, 9);
  });

  it('names what is not known, and counts on the worst', () => {
    const { rock: _, ...bare } = TANK;
    const stock = stockWith([claimant('unus-primus', undefined), strong], { tank: bare });
    const found = refugeOf(stock, stock.animals[0]!, [{ animal: stock.animals[1]!, reach: 1 }], [], DATE);
    expect(found).toMatchObject({
      leftL: Number.NaN,
      wantedL: 0,
      spareAtWorstL: Number.NEGATIVE_INFINITY,
      missing: ['tank.rock', 'conduct.rockClaim'],
    });
    const known = stockWith([target, claimant('vicinus-primus', undefined)]);
    expect(refugeOf(known, known.animals[0]!, [{ animal: known.animals[1]!, reach: 1 }], [], DATE).missing).toEqual(['conduct.rockClaim']);
  });
});

describe('freeShelter', () => {
  it.each([
    ['holes-in-rock', 'holes'],
    ['caves-and-ledges', 'caves'],
    ['burrows', 'burrows'],
    ['among-branches', 'branches'],
  ] as const)('animals that live in %s take up %s', (value, shelter) => {
    const way = { wayOfLiving: { value, basis: 'practice' as const } };
    const records = [claimant('unus-primus', exact(1, 'L'), way), claimant('vicinus-primus', exact(1, 'L'), way), strong];
    const stock = stockWith([records[0]!, records[1]!], {
      tank: { ...TANK, shelters: { [shelter]: 3 } },
      residents: [resident('unus-primus', 10), resident('vicinus-primus', 10, { count: 2 })],
    });
    expect(freeShelter(stock, stock.animals[0]!, stock.animals)).toEqual({ shelter, there: 3, free: 1 });
  });

  it('is not asked where the tank or the way of living counts none', () => {
    const inHoles = claimant('unus-primus', exact(1, 'L'), { wayOfLiving: { value: 'holes-in-rock', basis: 'practice' } });
    const stock = stockWith([inHoles, strong]);
    expect(freeShelter(stock, stock.animals[0]!, [])).toBeUndefined();
    expect(freeShelter(stock, stock.animals[1]!, [])).toBeUndefined();
  });
});
