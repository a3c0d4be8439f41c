import type { Basis } from '@commensal/schema';
import type { StockAnimal } from '../stock/stock.js';
import { PASSED, type Rule, type Verdict } from './rule.js';

/** One judgement: all animals of one species that live in the tank in the end. */
export interface CompanyMeasure {
  readonly animals: readonly StockAnimal[];
  readonly count: number;
  readonly males: number;
  readonly females: number;
  readonly kind: 'solitary' | 'pair' | 'harem' | 'group' | 'any' | undefined;
  readonly least: number;
  readonly most: number;
  readonly dwindles: boolean;
  readonly ownKind: number | undefined;
  /** Of a male to a male and of a female to a female, where the record tells them apart from the rest of its kind. */
  readonly maleToMale: number | undefined;
  readonly femaleToFemale: number | undefined;
  /** Which way it changes sex; undefined where not on record. */
  readonly sexChange: 'female-to-male' | 'male-to-female' | 'both-ways' | 'none' | 'both-at-once' | undefined;
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
  needs: ['conduct.company', 'conduct.pugnacity', 'lifeCycle.sexChange', 'sex'],
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
      const { record, pugnacity } = (animals[0] as StockAnimal).kind;
      const told = record.conduct?.company;
      const [least, most] = told === undefined ? [1, 1] : ORDINARY[told.kind];
      each({
        animals,
        count: total(animals),
        males: total(animals.filter((animal) => animal.sex === 'male')),
        females: total(animals.filter((animal) => animal.sex === 'female')),
        kind: told?.kind,
        least: told?.least ?? least,
        most: told?.most ?? most,
        dwindles: told?.dwindles === true,
        ownKind: pugnacity?.ownKind,
        maleToMale: pugnacity?.maleToMale,
        femaleToFemale: pugnacity?.femaleToFemale,
        sexChange: record.lifeCycle?.sexChange?.value,
        basis: told?.basis ?? 'recalled',
      });
    }
  },

  judge(measure, { fiercePugnacity }) {
    const { count, males, females, kind, least, most, ownKind } = measure;
    const excess = ownKind === undefined || ownKind >= fiercePugnacity ? 'error' : 'warning';
    const fight = judgeFight(measure, fiercePugnacity);
    // One alone may miss its company; several may be too many.
    if (kind === undefined) return fight ?? { outcome: 'cantTell', level: count === 1 ? 'warning' : excess, message: 'company.unknown' };
    if (count > most)
      return { outcome: 'failed', level: excess, message: kind === 'solitary' ? 'company.solitaryDoubled' : 'company.tooMany' };
    if (kind === 'harem' && males > 1) return { outcome: 'failed', level: excess, message: 'company.rivalMales' };
    if (fight !== undefined) return fight;
    if (count < least) return { outcome: 'failed', level: 'warning', message: 'company.tooFew' };
    if (kind === 'pair' && count === 2 && (males === 2 || females === 2)) return judgePair(measure);
    if (ownKind === undefined && count > 1) return { outcome: 'cantTell', level: 'note', message: 'company.pugnacityUnknown' };
    // Whoever buys them can choose: worth knowing, whatever the fight would come to.
    const untold = count - males - females;
    const mayFight = judgeFight({ ...measure, males: males + untold, females: females + untold }, fiercePugnacity) !== undefined;
    return mayFight ? { outcome: 'cantTell', level: 'note', message: 'company.sexUnknown' } : PASSED;
  },

  tell({ animals, count, males, females, least, most, dwindles, maleToMale, basis }, { message }, _stock, { fiercePugnacity }) {
    const field = MISSING[message];
    const fighters = (maleToMale ?? 0) >= fiercePugnacity ? 'males' : 'females';
    return {
      subjects: animals.map((animal) => ({ id: animal.id, role: 'animal' })),
      data: {
        count: { value: count, unit: '1' },
        least: { value: least, unit: '1' },
        ...(Number.isFinite(most) ? { most: { value: most, unit: '1' } } : {}),
        ...(males > 1 ? { males: { value: males, unit: '1' } } : {}),
        ...(females > 1 ? { females: { value: females, unit: '1' } } : {}),
        ...(dwindles ? { dwindles: { keys: ['dwindles'] } } : {}),
        ...(message === 'company.sexUnknown' ? { fighters: { keys: [fighters] } } : {}),
        ...(field === undefined ? {} : { missing: { keys: [field] } }),
      },
      when: null,
      basis,
    };
  },
};

const total = (animals: readonly StockAnimal[]): number => animals.reduce((sum, animal) => sum + animal.count, 0);

/** The field that a message names as missing. */
const MISSING: Readonly<Record<string, string>> = {
  'company.unknown': 'conduct.company',
  'company.pugnacityUnknown': 'conduct.pugnacity',
  'company.sexUnknown': 'sex',
  'company.pairUnknown': 'lifeCycle.sexChange',
};

/** Two males that bite or kill each other, or two such females, do so in any company. */
function judgeFight({ males, females, maleToMale, femaleToFemale }: CompanyMeasure, fiercePugnacity: number): Verdict | undefined {
  const isFierce = (pugnacity: number | undefined): boolean => pugnacity !== undefined && pugnacity >= fiercePugnacity;
  if (males > 1 && isFierce(maleToMale)) return { outcome: 'failed', level: 'error', message: 'company.fightingMales' };
  if (females > 1 && isFierce(femaleToFemale)) return { outcome: 'failed', level: 'error', message: 'company.fightingFemales' };
  return undefined;
}

/** Two of one sex make a pair only where one of them changes. */
function judgePair({ males, sexChange }: CompanyMeasure): Verdict {
  if (sexChange === undefined) return { outcome: 'cantTell', level: 'warning', message: 'company.pairUnknown' };
  const becomesPair =
    sexChange === 'both-ways' || sexChange === 'both-at-once' || sexChange === (males === 2 ? 'male-to-female' : 'female-to-male');
  return becomesPair ? PASSED : { outcome: 'failed', level: 'warning', message: 'company.noPair' };
}
