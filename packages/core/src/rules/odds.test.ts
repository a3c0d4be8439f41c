import type { Introduction, Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { exact, newcomer, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { dayOf } from '../quantity/days.js';
import { libraryOf } from '../stock/library.js';
import { stockOf } from '../stock/stock-of.js';
import type { Stock } from '../stock/stock.js';
import { contestDefaults, type ContestOptions, isMuchSmaller, isSettledAnew, type Odds, oddsOf, sameSort, type Temper } from './odds.js';
import { strengthBook, strengthGaps } from './strength.js';

const OPTIONS = Object.fromEntries(Object.entries(contestDefaults).map(([name, { value }]) => [name, value])) as ContestOptions;
const CALM: Temper = { step: 0, atMost: 0 };
const DATE = dayOf('2027-03-01');

const stockWith = (situation: Partial<Situation>, records: readonly SpeciesRecord[]): Stock =>
  stockOf(situationWith(situation), libraryOf(records)).stock;

const pair = [recordWith('unus-primus'), recordWith('vicinus-primus')];

const odds = (stock: Stock, ofOne: Temper = CALM, ofOther: Temper = CALM, day = DATE): Odds =>
  oddsOf(stock, day, [stock.animals[0]!, ofOne], [stock.animals[1]!, ofOther], strengthBook(), OPTIONS);

const lengths = (one: number, other: number): Stock =>
  stockWith({ residents: [resident('unus-primus', one), resident('vicinus-primus', other)] }, pair);

describe('oddsOf', () => {
  it('equals are even; 1.05 times as long wins 0.65, 1.25 times 0.95', () => {
    expect(odds(lengths(10, 10)).centre).toBe(0.5);
    // Two hundredths: a deep body weighs with L^3.01, not with the L^3.04 of an ordinary one.
    expect(Math.abs(odds(lengths(10.5, 10)).centre - 0.65)).toBeLessThan(0.02);
    expect(Math.abs(odds(lengths(12.5, 10)).centre - 0.95)).toBeLessThan(0.02);
  });

  it('what the one wins the other loses', () => {
    const [ofOne, ofOther] = [
      { step: 3, atMost: 3 },
      { step: 1, atMost: 1 },
    ];
    // One rounding each of two logistic functions.
    expect(odds(lengths(9, 10), ofOne, ofOther).centre + odds(lengths(10, 9), ofOther, ofOne).centre).toBeCloseTo(1, 12);
  });

  it('pugnacity is worth length', () => {
    expect(odds(lengths(10, 10), { step: 4, atMost: 4 }).centre).toBeGreaterThan(0.9);
    expect(odds(lengths(10, 10), CALM, { step: 4, atMost: 4 }).centre).toBeLessThan(0.1);
  });

  it('what is not known of either leaves a range', () => {
    const unknown = { step: undefined, atMost: 4 };
    expect(odds(lengths(10, 10), CALM, unknown)).toMatchObject({ centre: 0.5, high: 0.5 });
    expect(odds(lengths(10, 10), CALM, unknown).low).toBeLessThan(0.1);
    expect(odds(lengths(10, 10), unknown)).toMatchObject({ low: 0.5 });
    const unmeasured = stockWith({ residents: [{ id: 'it', species: 'unus-primus' }, resident('vicinus-primus', 10)] }, pair);
    expect(odds(unmeasured)).toEqual({ centre: Number.NaN, low: 0, high: 1 });
  });

  it('residence is worth length, and is lost when the rock is re-laid', () => {
    const entry: Introduction = { date: '2027-03-01', animals: [newcomer('vicinus-primus', 10)] };
    const resided = stockWith({ residents: [resident('unus-primus', 10)], introductions: [entry] }, pair);
    const relaid = stockWith(
      { residents: [resident('unus-primus', 10)], introductions: [entry], events: [{ kind: 'rock-relaid', date: '2027-03-01' }] },
      pair,
    );
    expect(odds(resided).centre).toBeGreaterThan(0.8);
    expect(odds(relaid).centre).toBe(0.5);
    expect(Math.abs(odds(resided, CALM, CALM, DATE + 365).centre - 0.5)).toBeLessThan(1e-6);
  });

  it('an eel is weaker than a deep fish of its length', () => {
    const eel = recordWith('vicinus-primus', { shape: { bodyDepth: exact(0.05, '1') } });
    expect(
      odds(stockWith({ residents: [resident('unus-primus', 10), resident('vicinus-primus', 10)] }, [pair[0]!, eel])).centre,
    ).toBeGreaterThan(0.99);
  });

  it.each([
    ['TL', 0.5],
    ['SL', 0.05],
    ['FL', 0.5],
  ] as const)('a length-weight relationship on record counts, in %s', (lengthType, least) => {
    // Twice the weight at one length of fishes of ordinary build; 1.25 times TL over SL takes it away again.
    const heavy = recordWith('unus-primus', {
      size: { ...pair[0]!.size, totalPerFork: exact(1, '1'), weight: { a: 0.0224, b: 3.04, lengthType, basis: 'measured' } },
    });
    const plain = recordWith('vicinus-primus', { size: { ...pair[1]!.size, weight: { a: 0.0112, b: 3.04, basis: 'measured' } } });
    const { centre } = odds(stockWith({ residents: [resident('unus-primus', 10), resident('vicinus-primus', 10)] }, [heavy, plain]));
    expect(centre > 0.9).toBe(lengthType !== 'SL');
    expect(centre).toBeGreaterThan(least);
  });
});

describe('strengthGaps', () => {
  it('a length needs a growth curve only after the day it was measured', () => {
    const record = recordWith('unus-primus', { size: {}, growth: {} });
    const { animals } = stockWith({ residents: [resident('unus-primus', 10)] }, [record]);
    expect(strengthGaps(animals[0]!, DATE)).toEqual([]);
    expect(strengthGaps(animals[0]!, DATE + 1)).toEqual(['growth.asymptoticLength']);
    const unmeasured = stockWith({ residents: [{ id: 'it', species: 'unus-primus' }] }, [record]);
    expect(strengthGaps(unmeasured.animals[0]!, DATE)).toEqual(['length']);
  });
});

describe('isMuchSmaller', () => {
  it.each([
    [10, 6.5, true],
    [10, 6.8, false],
  ])('%f against %f cm: %s', (one, other, said) => {
    const stock = lengths(one, other);
    expect(isMuchSmaller(stock.animals[0]!, stock.animals[1]!, DATE, strengthBook(), OPTIONS)).toBe(said);
  });

  it('cannot be told without lengths', () => {
    const stock = stockWith({ residents: [{ id: 'it', species: 'unus-primus' }, resident('vicinus-primus', 10)] }, pair);
    expect(isMuchSmaller(stock.animals[0]!, stock.animals[1]!, DATE, strengthBook(), OPTIONS)).toBeUndefined();
  });
});

describe('sameSort', () => {
  it.each([
    ['fish', 'fish', true],
    ['fish', 'shrimp', false],
    ['shrimp', 'crab', true],
    ['hermit-crab', 'crab', true],
    ['snail', 'urchin', false],
    ['anemone', 'anemone', true],
  ] as const)('%s and %s: %s', (one, other, said) => {
    const records = [recordWith('unus-primus', { form: one }), recordWith('vicinus-primus', { form: other })];
    const { animals } = stockWith({ residents: [resident('unus-primus', 5), resident('vicinus-primus', 5)] }, records);
    expect(sameSort(animals[0]!, animals[1]!)).toBe(said);
  });
});

describe('isSettledAnew', () => {
  it('on the day the rock is re-laid, and while a divider stands', () => {
    const stock = stockWith(
      {
        events: [
          { kind: 'rock-relaid', date: '2027-03-05' },
          { kind: 'tank-divided', date: '2027-03-10', until: '2027-03-12' },
        ],
      },
      [],
    );
    expect(['04', '05', '06', '09', '10', '12', '13'].map((day) => isSettledAnew(stock, dayOf(`2027-03-${day}`)))).toEqual([
      false,
      true,
      false,
      false,
      true,
      true,
      false,
    ]);
  });
});
