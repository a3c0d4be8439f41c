import type { Basis } from '@commensal/schema';
import { weakest } from '../quantity/basis.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { treatmentOn } from './attack.js';
import { companionship } from './companions.js';
import { type ContestOption, type ContestOptions, contestDefaults, isSettledAnew, oddsOf, CONTEST_SOURCES, sameSort } from './odds.js';
import { freeShelter, mayLackShelter, type Refuge, refugeOf } from './refuge.js';
import { isUnder } from './rounding.js';
import { INAPPLICABLE, PASSED, type Rule } from './rule.js';
import { type StrengthBook, strengthBook, strengthGaps } from './strength.js';

/** One judgement: a newcomer, and those that hold the tank on the day it comes in. */
export interface LockoutMeasure {
  readonly newcomer: StockAnimal;
  readonly day: number;
  /** Nobody holds an old territory: the rock is re-laid that day, or a divider stands. */
  readonly settledAnew: boolean;
  /** Those that were there before, attack newcomers and are not beaten by this one. */
  readonly holders: readonly StockAnimal[];
  /** What the fiercest of them does to newcomers, 0 to 4. */
  readonly step: number;
  /** Those of which it is not known whether they do so. */
  readonly maybeHolders: readonly StockAnimal[];
  readonly refuge: Refuge;
  /** The same where all that may attack do. */
  readonly refugeAtWorst: Refuge;
  /** The shelter that the newcomer lives by, and how many are there and free; undefined where none counts. */
  readonly shelter: { readonly shelter: string; readonly there: number; readonly free: number } | undefined;
  /** It is not known how the newcomer lives, and of some shelter too few are free. */
  readonly mayLackShelter: boolean;
  /** Fields without which it is not known who attacks. */
  readonly missing: readonly string[];
  readonly basis: Basis;
}

type Options = ContestOption | 'attackFrom' | 'errorFrom';

export type LockoutOptions = Readonly<Record<Options, number>>;

/** Does a newcomer find a place where those that are there already let it be? */
export const lockout: Rule<LockoutMeasure, Options> = {
  id: 'lockout',
  question: 'Does a newcomer find a free place among those that hold the tank already?',
  scope: 'tank',
  planning: 'plan',
  monotone: { water: 'neither', rock: 'better', fewerAnimals: 'better', delay: 'either' },
  needs: [
    'conduct.pugnacity',
    'conduct.rockClaim',
    'conduct.wayOfLiving',
    'size.entry',
    'size.captiveAdult',
    'enteredOn',
    'tank.rock',
    'tank.shelters',
  ],
  sources: CONTEST_SOURCES,
  defaults: {
    ...contestDefaults,
    attackFrom: {
      value: 2,
      unit: '1',
      basis: 'practice',
      note: 'Pugnacity to newcomers from which an animal keeps them off what it holds.',
    },
    errorFrom: { value: 3, unit: '1', basis: 'practice', note: 'Pugnacity to newcomers from which it is an error.' },
  },

  measure(stock, options, each) {
    const strengths = strengthBook();
    for (const newcomer of stock.animals) {
      if (newcomer.role === 'newcomer' && newcomer.entryDay !== undefined)
        each(lockoutOf(stock, newcomer, newcomer.entryDay, strengths, options));
    }
  },

  judge(measure, { errorFrom }) {
    const { settledAnew, holders, maybeHolders, step, shelter, refuge, refugeAtWorst } = measure;
    const lacksShelter = shelter !== undefined && shelter.free < measure.newcomer.count;
    if (settledAnew) return INAPPLICABLE;
    if (holders.length > 0) {
      const level = step >= errorFrom ? 'error' : 'warning';
      if (isUnder(refuge.spareL, 0)) return { outcome: 'failed', level, message: 'lockout.noRock' };
      if (lacksShelter) return { outcome: 'failed', level, message: 'lockout.noShelter' };
    }
    if (holders.length + maybeHolders.length === 0) return INAPPLICABLE;
    if (!lacksShelter && !measure.mayLackShelter && !isUnder(refugeAtWorst.spareAtWorstL, 0)) return PASSED;
    const gaps = maybeHolders.length > 0 || measure.mayLackShelter || refugeAtWorst.missing.length > 0;
    const level = maybeHolders.length > 0 || step >= errorFrom ? 'error' : 'warning';
    return { outcome: 'cantTell', level, message: gaps ? 'lockout.unknown' : 'lockout.mayLackRock' };
  },

  tell({ newcomer, day, holders, maybeHolders, refuge, refugeAtWorst, shelter, missing, basis }, { outcome, message }) {
    const litres = (value: number): { value: number; unit: string } => ({ value: Math.round(value * 10) / 10, unit: 'L' });
    // Settlers are those that were there before anything was planned.
    const named = outcome === 'cantTell' ? [...holders, ...maybeHolders] : holders;
    const lacking = message === 'lockout.unknown' ? [...new Set([...missing, ...refugeAtWorst.missing])].sort() : [];
    return {
      subjects: [
        { id: newcomer.id, role: 'newcomer' },
        ...named.filter(({ role }) => role === 'resident').map(({ id }) => ({ id, role: 'settler' })),
        ...named.filter(({ role }) => role === 'newcomer').map(({ id }) => ({ id, role: 'holder' })),
      ],
      data: {
        ...(refuge.wantedL > 0 ? { wanted: litres(refuge.wantedL) } : {}),
        ...(Number.isNaN(refuge.leftL)
          ? {}
          : { left: litres(Math.max(0, refuge.leftL)), missingRock: litres(Math.max(0, -refuge.spareL)) }),
        ...(shelter === undefined
          ? {}
          : {
              shelter: { keys: [shelter.shelter] },
              there: { value: shelter.there, unit: '1' },
              free: { value: Math.max(0, shelter.free), unit: '1' },
            }),
        ...(message === 'lockout.mayLackRock' ? { settle: { keys: ['tank.rock'] } } : {}),
        ...(lacking.length > 0 ? { missing: { keys: lacking } } : {}),
      },
      when: day,
      basis,
    };
  },
};

function lockoutOf(
  stock: Stock,
  newcomer: StockAnimal,
  day: number,
  strengths: StrengthBook,
  options: ContestOptions & { readonly attackFrom: number },
): LockoutMeasure {
  const present = stock.animals.filter((animal) => animal !== newcomer && isThereBefore(animal, day));
  const holders: StockAnimal[] = [];
  const maybeHolders: StockAnimal[] = [];
  const missing = new Set<string>();
  let step = 0;
  let basis: Basis = 'measured';
  for (const animal of present) {
    if (!sameSort(animal, newcomer) || companionship(stock, animal, newcomer) === 'bonded') continue;
    const toNewcomers = animal.kind.pugnacity?.newcomers;
    if (toNewcomers !== undefined && toNewcomers < options.attackFrom) continue;
    const { low, centre, high } = oddsAgainst(stock, animal, newcomer, day, strengths, options);
    if (high < options.evenFrom) continue;
    if (toNewcomers !== undefined && centre >= options.evenFrom) {
      holders.push(animal);
      step = Math.max(step, toNewcomers);
      basis = weakest(basis, animal.kind.pugnacity?.basis ?? 'recalled');
      continue;
    }
    maybeHolders.push(animal);
    if (toNewcomers === undefined) missing.add('conduct.pugnacity');
    if (low !== high) for (const field of [...strengthGaps(animal, day), ...strengthGaps(newcomer, day)]) missing.add(field);
  }
  const refugeFrom = (attackers: readonly StockAnimal[]): Refuge =>
    refugeOf(
      stock,
      newcomer,
      attackers.map((animal) => ({ animal, reach: 1 })),
      present.filter((animal) => !attackers.includes(animal)),
      day,
    );
  const refuge = refugeFrom(holders);
  const mayLackAny = mayLackShelter(stock, newcomer, present, newcomer.count);
  return {
    newcomer,
    day,
    settledAnew: isSettledAnew(stock, day),
    holders,
    step,
    maybeHolders,
    refuge,
    refugeAtWorst: maybeHolders.length === 0 ? refuge : refugeFrom([...holders, ...maybeHolders]),
    shelter: freeShelter(stock, newcomer, present),
    mayLackShelter: mayLackAny,
    missing: [...missing, ...(mayLackAny ? ['conduct.wayOfLiving'] : [])],
    basis: weakest(basis, refuge.basis),
  };
}

/** Went in earlier, and is still there. */
export const isThereBefore = (animal: StockAnimal, day: number): boolean =>
  (animal.entryDay ?? Number.NEGATIVE_INFINITY) < day && animal.leaveDay > day;

function oddsAgainst(
  stock: Stock,
  holder: StockAnimal,
  newcomer: StockAnimal,
  day: number,
  strengths: StrengthBook,
  options: ContestOptions,
): ReturnType<typeof oddsOf> {
  const treatment = treatmentOn(holder, newcomer, day, true, strengths, options);
  const answer = treatmentOn(newcomer, holder, day, false, strengths, options);
  return oddsOf(stock, day, [holder, treatment], [newcomer, answer], strengths, options);
}
