import type { Basis } from '@commensal/schema';
import type { StockAnimal } from '../stock/stock.js';
import { PASSED, type Rule } from './rule.js';

/** One judgement: all animals of one species that live in the tank in the end. */
export interface CompanyMeasure {
  readonly animals: readonly StockAnimal[];
  readonly count: number;
  readonly males: number;
  readonly kind: 'solitary' | 'pair' | 'harem' | 'group' | 'any' | undefined;
  readonly least: number;
  readonly most: number;
  readonly dwindles: boolean;
  readonly ownKind: number | undefined;
  readonly basis: Basis;
}

/** What a kind of company means in numbers where the record does not say. */
const ORDINARY: Readonly<Record<'solitary' | 'pair' | 'harem' | 'group' | 'any', readonly [least: number, most: number]>> = {
  solitary: [1, 1],
  pair: [1, 2],
  harem: [1, Number.POSITIVE_INFINITY],
  group: [3, Number.POSITIVE_INFINITY],
  any: [1, Number.POSITIVE_INFINITY],
};

/** Has each species the company of its own kind that works in a tank? */
export const company: Rule<CompanyMeasure, 'fiercePugnacity'> = {
  id: 'company',
  question: 'Has this species the company of its own kind that works in a tank?',
  scope: 'tank',
  planning: 'recheck',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'either', delay: 'neither' },
  needs: ['conduct.company', 'conduct.pugnacity'],
  sources: [],
  defaults: {
    fiercePugnacity: {
      value: 3,
      unit: '1',
      basis: 'practice',
      note: 'Pugnacity to its own kind from which too many together is an error.',
    },
  },

  measure(stock, _options, each) {
    const byKind = new Map<string, StockAnimal[]>();
    for (const animal of stock.animals) {
      if (animal.leaveDay <= stock.horizonDay) continue;
      const alike = byKind.get(animal.kind.id);
      if (alike === undefined) byKind.set(animal.kind.id, [animal]);
      else alike.push(animal);
    }
    for (const animals of byKind.values()) {
      const record = (animals[0] as StockAnimal).kind.record;
      const told = record.conduct?.company;
      const [least, most] = told === undefined ? [1, 1] : ORDINARY[told.kind];
      each({
        animals,
        count: total(animals),
        males: total(animals.filter((animal) => animal.sex === 'male')),
        kind: told?.kind,
        least: told?.least ?? least,
        most: told?.most ?? most,
        dwindles: told?.dwindles === true,
        ownKind: record.conduct?.pugnacity?.ownKind,
        basis: told?.basis ?? 'recalled',
      });
    }
  },

  judge({ count, males, kind, least, most, ownKind }, { fiercePugnacity }) {
    const excess = ownKind === undefined || ownKind >= fiercePugnacity ? 'error' : 'warning';
    // One alone may miss its company; several may be too many.
    if (kind === undefined) return { outcome: 'cantTell', level: count === 1 ? 'warning' : excess, message: 'company.unknown' };
    if (count > most)
      return { outcome: 'failed', level: excess, message: kind === 'solitary' ? 'company.solitaryDoubled' : 'company.tooMany' };
    if (kind === 'harem' && males > 1) return { outcome: 'failed', level: excess, message: 'company.rivalMales' };
    if (count < least) return { outcome: 'failed', level: 'warning', message: 'company.tooFew' };
    return PASSED;
  },

  tell({ animals, count, males, kind, least, most, dwindles, basis }) {
    return {
      subjects: animals.map((animal) => ({ id: animal.id, role: 'animal' })),
      data: {
        count: { value: count, unit: '1' },
        least: { value: least, unit: '1' },
        ...(Number.isFinite(most) ? { most: { value: most, unit: '1' } } : {}),
        ...(males > 1 ? { males: { value: males, unit: '1' } } : {}),
        ...(dwindles ? { dwindles: { keys: ['dwindles'] } } : {}),
        ...(kind === undefined ? { missing: { keys: ['conduct.company'] } } : {}),
      },
      when: null,
      basis,
    };
  },
};

const total = (animals: readonly StockAnimal[]): number => animals.reduce((sum, animal) => sum + animal.count, 0);
