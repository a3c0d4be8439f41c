import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { deepFrozen } from '../../tests/support/invented.js';
import { exact, newcomer, PEACEFUL, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { dayOf } from '../quantity/days.js';
import { libraryOf } from '../stock/library.js';
import { stockOf } from '../stock/stock-of.js';
import type { Stock } from '../stock/stock.js';
import { completeDay, expectedHierarchy } from './hierarchy.js';

/** A fish that has done with growing. */
const fish = (id: string, others: number | 'untold' = 1): SpeciesRecord =>
  recordWith(id, {
    kinGroup: { value: id, basis: 'practice' },
    growth: { asymptoticLength: exact(1, 'cm'), rate: exact(0.5, '/a') },
    conduct: others === 'untold' ? {} : { pugnacity: { ...PEACEFUL, others } },
  });

const stockWith = (situation: Partial<Situation>, records: readonly SpeciesRecord[]): Stock =>
  deepFrozen(stockOf(situationWith(situation), libraryOf(records)).stock);

const three = [fish('primus-unus'), fish('secundus-unus'), fish('tertius-unus')];
const residents = [resident('primus-unus', 10), resident('secundus-unus', 12), resident('tertius-unus', 14)];

describe('expectedHierarchy', () => {
  it('the larger rules where all are of one temper', () => {
    const { order, unranked, day } = expectedHierarchy(stockWith({ residents }, three));
    expect(order.map(({ animal }) => animal.id)).toEqual(['tertius-unus', 'secundus-unus', 'primus-unus']);
    expect(order.map(({ rivals }) => rivals)).toEqual([2, 2, 2]);
    expect(unranked).toEqual([]);
    expect(day).toBe(dayOf('2027-03-01'));
  });

  it('chances and scores of all together come to one half each', () => {
    const { order } = expectedHierarchy(stockWith({ residents }, three));
    // One rounding for each sum of chances.
    expect(order.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1.5, 12);
    expect(order.reduce((sum, { score }) => sum + score, 0)).toBeCloseTo(1.5, 12);
  });

  it('one that beats its only rival does not stand above one that beats three', () => {
    // The first contests with the second alone: the peaceful ignore each other.
    const records = [fish('primus-unus', 0), fish('secundus-unus', 0), fish('tertius-unus', 3), fish('quartus-unus', 0)];
    const { order } = expectedHierarchy(
      stockWith(
        {
          residents: [resident('primus-unus', 30), resident('secundus-unus', 8), resident('tertius-unus', 12), resident('quartus-unus', 8)],
        },
        records,
      ),
    );
    expect(order.map(({ animal, rivals }) => `${animal.id} ${rivals}`)).toEqual([
      'primus-unus 1',
      'tertius-unus 3',
      'quartus-unus 1',
      'secundus-unus 1',
    ]);
    const crowd = expectedHierarchy(
      stockWith(
        {
          residents: [
            resident('primus-unus', 30),
            resident('secundus-unus', 8, { count: 20 }),
            resident('tertius-unus', 12),
            resident('quartus-unus', 8),
          ],
        },
        records,
      ),
    );
    expect(crowd.order[0]?.animal.id).toBe('tertius-unus');
  });

  it('a line counts as so many rivals', () => {
    const stock = stockWith({ residents: [resident('primus-unus', 10, { count: 4 }), resident('secundus-unus', 12)] }, three);
    expect(expectedHierarchy(stock).order.map(({ rivals }) => rivals)).toEqual([4, 1]);
  });

  it('animals that ignore each other have no place', () => {
    const peaceful = three.map(({ id }) => fish(id, 0));
    expect(expectedHierarchy(stockWith({ residents }, peaceful)).order).toEqual([]);
  });

  it('names what it cannot rank, and why', () => {
    const stock = stockWith({ residents: [residents[0]!, { id: 'it', species: 'secundus-unus' }, residents[2]!] }, [
      three[0]!,
      three[1]!,
      fish('tertius-unus', 'untold'),
    ]);
    const { order, unranked } = expectedHierarchy(stock);
    expect(order).toEqual([]);
    expect(unranked.map(({ animal, missing }) => [animal.id, ...missing])).toEqual([
      ['it', 'length'],
      ['tertius-unus', 'conduct.pugnacity'],
    ]);
  });

  it('is expected for the day on which all that stay are in, or for another', () => {
    const stock = stockWith(
      {
        residents: [residents[0]!],
        introductions: [
          { date: '2027-04-01', animals: [newcomer('secundus-unus', 12)] },
          { date: '2027-05-01', animals: [newcomer('tertius-unus', 14)] },
        ],
        events: [{ kind: 'animal-removed', animal: 'tertius-unus', date: '2027-06-01' }],
      },
      three,
    );
    expect(completeDay(stock)).toBe(dayOf('2027-04-01'));
    expect(expectedHierarchy(stock).order.length).toBe(2);
    expect(expectedHierarchy(stock, dayOf('2027-05-10')).order.length).toBe(3);
    expect(expectedHierarchy(stock, dayOf('2027-06-01')).order.length).toBe(2);
  });

  it('does not depend on the order of the document', () => {
    const ids = (order: typeof residents): string[] =>
      expectedHierarchy(stockWith({ residents: order }, three)).order.map(({ animal }) => animal.id);
    expect(ids([...residents].reverse())).toEqual(ids(residents));
  });
});
