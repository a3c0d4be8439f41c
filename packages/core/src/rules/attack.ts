import type { Basis, Level } from '@commensal/schema';
import { weakest } from '../quantity/basis.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { lower } from './levels.js';
import { type ContestOption, type ContestOptions, contestDefaults, isMuchSmaller, type Odds, oddsOf } from './odds.js';
import { freeShelter, mayLackShelter, type Refuge, refugeOf } from './refuge.js';
import { isKinship, type Treatment, treatmentOf } from './relation.js';
import { isUnder } from './rounding.js';
import type { Outcome, RuleDefault } from './rule.js';
import { type StrengthBook, strengthGaps } from './strength.js';

/** What one animal does to another on a day, and how the other can bear it. */
export interface Attack {
  readonly aggressor: StockAnimal;
  readonly target: StockAnimal;
  readonly day: number;
  readonly treatment: Treatment;
  /** What the target does in its turn. */
  readonly answer: Treatment;
  /** Chance that the aggressor wins. */
  readonly odds: Odds;
  readonly refuge: Refuge;
  /** The shelter that the target lives by, where it is known that none is left. */
  readonly noShelter: string | undefined;
  /** It is not known how the target lives, and of some shelter none is left. */
  readonly maybeNoShelter: boolean;
  /** Of one species that bears no other of its kind. */
  readonly solitary: boolean;
  /** Fields without which something of this is not known. */
  readonly missing: readonly string[];
  readonly basis: Basis;
}

export type AttackOption = ContestOption | 'chases' | 'bites' | 'kills' | 'kinReach';

export const attackDefaults: Readonly<Record<AttackOption, RuleDefault>> = {
  ...contestDefaults,
  chases: { value: 2, unit: '1', basis: 'practice', note: 'Step of pugnacity from which an animal chases: a note.' },
  bites: {
    value: 3,
    unit: '1',
    basis: 'practice',
    note: 'Step from which it bites: a warning; an error where a solitary species bites its own kind.',
  },
  kills: { value: 4, unit: '1', basis: 'practice', note: 'Step from which it kills: an error, or a warning where the other has a refuge.' },
  kinReach: {
    value: 3,
    unit: '1',
    basis: 'choice',
    note: 'From its own kind, genus, kin and look-alikes an aggressor keeps so many times the rock it claims: it looks out for them beyond its territory.',
  },
};

export type AttackOptions = Readonly<Record<AttackOption, number>>;

/** Those besides by which it is told how an attack ends. */
export type HarmOption = AttackOption | 'evenTo' | 'standsGround';

export const harmDefaults: Readonly<Record<HarmOption, RuleDefault>> = {
  ...attackDefaults,
  evenTo: { value: 0.65, unit: '1', basis: 'choice', note: 'Chance of winning up to which a contest is even: lengths within about 5 %.' },
  standsGround: {
    value: 1,
    unit: '1',
    basis: 'choice',
    note: 'Step from which an animal fights back, so that an even contest harms both; below, it only flees.',
  },
};

export type HarmOptions = Readonly<Record<HarmOption, number>>;

/** What one does to the other on a day; undefined where it does not come to a chase, or is fended off. `others` take up rock and shelters besides. */
export function attackOf(
  stock: Stock,
  aggressor: StockAnimal,
  target: StockAnimal,
  day: number,
  isNewcomer: (one: StockAnimal, other: StockAnimal) => boolean,
  strengths: StrengthBook,
  options: AttackOptions,
  others: readonly StockAnimal[] = [],
): Attack | undefined {
  const treatment = treatmentOn(aggressor, target, day, isNewcomer(target, aggressor), strengths, options);
  if (treatment.atMost < options.chases) return undefined;
  const answer = treatmentOn(target, aggressor, day, isNewcomer(aggressor, target), strengths, options);
  const odds = oddsOf(stock, day, [aggressor, treatment], [target, answer], strengths, options);
  if (odds.high < options.evenFrom) return undefined;
  const refuge = refugeOf(stock, target, [{ animal: aggressor, reach: isKinship(treatment.toward) ? options.kinReach : 1 }], others, day);
  const shelter = freeShelter(stock, target, others);
  const maybeNoShelter = mayLackShelter(stock, target, others, 1);
  // What the other does in its turn matters where it turns the odds.
  const isTold = treatment.step !== undefined && (answer.step !== undefined || odds.low === odds.high);
  const unmeasured = aggressor === target ? [] : [...strengthGaps(aggressor, day), ...strengthGaps(target, day)];
  return {
    aggressor,
    target,
    day,
    treatment,
    answer,
    odds,
    refuge,
    noShelter: shelter !== undefined && shelter.free <= 0 ? shelter.shelter : undefined,
    maybeNoShelter,
    solitary: isOfSolitaryKind(aggressor, target),
    missing: [...(isTold ? [] : ['conduct.pugnacity']), ...unmeasured, ...(maybeNoShelter ? ['conduct.wayOfLiving'] : [])],
    basis: weakest(treatment.basis, aggressor.lengthCm?.basis ?? 'recalled', target.lengthCm?.basis ?? 'recalled', refuge.basis),
  };
}

/** Both are of one species that bears no other of its kind. */
export const isOfSolitaryKind = ({ kind }: StockAnimal, target: StockAnimal): boolean =>
  kind.id === target.kind.id && kind.record.conduct?.company?.kind === 'solitary';

/** What one does to the other; much smaller fishes are asked for only where the record treats them apart. */
export function treatmentOn(
  actor: StockAnimal,
  target: StockAnimal,
  day: number,
  newcomer: boolean,
  strengths: StrengthBook,
  options: ContestOptions,
): Treatment {
  const smaller = asksForSize(actor, target) ? isMuchSmaller(actor, target, day, strengths, options) : false;
  return treatmentOf(actor, target, { smaller, newcomer });
}

/** Whether what one does to the other may hang on how much smaller that is. */
export const asksForSize = ({ kind }: StockAnimal, target: StockAnimal): boolean =>
  kind.pugnacity?.smaller !== undefined && kind.id !== target.kind.id;

/** How an attack ends: `even` harms both, `oneSided` the target for want of a refuge, `hunted` the target in spite of one. */
export type Harm = 'even' | 'oneSided' | 'hunted';

export interface Harmed {
  readonly outcome: Extract<Outcome, 'failed' | 'cantTell'>;
  readonly level: Level;
  readonly harm: Harm;
}

/** Judged at the centre, then at the point less favourable to the target. Whether a chase finds a refuge is not worth a doubt about litres. */
export function harmOf(attack: Attack, options: HarmOptions): Harmed | undefined {
  const { treatment, answer, odds, refuge, noShelter, maybeNoShelter } = attack;
  const lacks = noShelter !== undefined;
  const { centre } = odds;
  const { step, atMost } = treatment;
  if (step !== undefined) {
    const harm = harmAt(step, answer.step ?? 0, { centre, low: centre, high: centre }, lacks || isUnder(refuge.spareL, 0), options);
    if (harm !== undefined) return { outcome: 'failed', harm, level: levelOf(attack.solitary, step, harm, options) };
  }
  const spareAtWorstL = atMost >= options.bites || refuge.missing.length > 0 ? refuge.spareAtWorstL : refuge.spareL;
  const harm = harmAt(atMost, answer.atMost, odds, lacks || maybeNoShelter || isUnder(spareAtWorstL, 0), options);
  return harm === undefined ? undefined : { outcome: 'cantTell', harm, level: levelOf(attack.solitary, atMost, harm, options) };
}

function harmAt(step: number, answer: number, { low, high }: Odds, withoutRefuge: boolean, options: HarmOptions): Harm | undefined {
  if (step < options.chases || !(high >= options.evenFrom)) return undefined;
  if (low <= options.evenTo && answer >= options.standsGround) return 'even';
  if (withoutRefuge) return 'oneSided';
  return step >= options.kills ? 'hunted' : undefined;
}

/** How grave it is what an aggressor does with such a step, and how that ends. */
export function levelOf(solitary: boolean, step: number, harm: Harm, { bites, kills }: HarmOptions): Level {
  const level: Level = step >= kills || (solitary && step >= bites) ? 'error' : step >= bites ? 'warning' : 'note';
  return harm === 'hunted' ? lower(level, 1) : level;
}
