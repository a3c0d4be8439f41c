import type { Basis, Datum } from '@commensal/schema';
import { weakest } from '../quantity/basis.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { type Attack, type AttackOption, type AttackOptions, attackDefaults, attackOf } from './attack.js';
import { byKindAndLength } from './equals.js';
import { companionship } from './companions.js';
import { completeDay, expectedHierarchy, type HierarchyPlace } from './hierarchy.js';
import { CONTEST_SOURCES, sameSort } from './odds.js';
import { isThere } from './presence.js';
import { isUnder } from './rounding.js';
import { INAPPLICABLE, PASSED, type Rule, type RuleDefault, type Verdict } from './rule.js';
import { type StrengthBook, strengthBook } from './strength.js';

/** One look at the tank: who rules it, and what it may do to whom. */
export interface DominanceLook {
  readonly day: number;
  /** First and second of the hierarchy to be expected. */
  readonly ruler: HierarchyPlace | undefined;
  readonly next: HierarchyPlace | undefined;
  /** What the ruler does to each that it does not leave in peace, and beats one-sidedly or may do so. */
  readonly attacks: readonly Attack[];
  /** Where the place of some is not known any may rule: what the others would do. */
  readonly attacksByOthers: readonly Attack[];
}

/** One judgement: the tank, once all are in and on the last day looked at. */
export interface DominanceMeasure {
  readonly looks: readonly DominanceLook[];
}

type Option = AttackOption | 'oneSided';

export type DominanceOptions = Readonly<Record<Option, number>>;

const oneSided: RuleDefault = {
  value: 0.8,
  unit: '1',
  basis: 'choice',
  note: 'Chance of winning from which the other never wins its place: lengths about 11 % apart.',
};

/** Would the animal that is likely to rule the tank harm others? A firm ruler without victims is no finding. */
export const dominance: Rule<DominanceMeasure, Option> = {
  id: 'dominance',
  question: 'Would the animal that is likely to rule this tank harm any other?',
  scope: 'tank',
  planning: 'recheck',
  monotone: { water: 'neither', rock: 'better', fewerAnimals: 'either', delay: 'either' },
  needs: [
    'conduct.pugnacity',
    'conduct.resembles',
    'conduct.company',
    'conduct.rockClaim',
    'conduct.wayOfLiving',
    'kinGroup',
    'size.entry',
    'size.weight',
    'shape.bodyDepth',
    'growth.asymptoticLength',
    'growth.rate',
    'tank.rock',
    'tank.shelters',
  ],
  sources: CONTEST_SOURCES,
  defaults: { ...attackDefaults, oneSided },

  measure(stock, options, each) {
    if (stock.animals.length < 2) return;
    const strengths = strengthBook();
    const complete = completeDay(stock);
    const days = complete < stock.horizonDay ? [complete, stock.horizonDay] : [complete];
    // What does not win its place one-sidedly comes to nothing here, so that its refuge need not be looked for.
    const asked = { ...options, evenFrom: Math.max(options.evenFrom, options.oneSided) };
    each({ looks: days.map((day) => lookAt(stock, day, strengths, asked)) });
  },

  judge(measure, options) {
    return gravest(measure, options)?.verdict ?? (measure.looks.some(({ ruler }) => ruler !== undefined) ? PASSED : INAPPLICABLE);
  },

  tell(measure, _verdict, _stock, options) {
    const found = gravest(measure, options);
    if (found === undefined) return { subjects: [], data: {}, when: null, basis: 'recalled' };
    const { look, victims } = found;
    const worst = victims.reduce((most, attack) => (isWorseOff(attack, most) ? attack : most), victims[0] as Attack);
    const { aggressor, refuge, noShelter } = worst;
    const missing = [
      ...new Set(
        found.verdict.message === 'dominance.unknown' ? victims.flatMap((attack) => [...attack.missing, ...attack.refuge.missing]) : [],
      ),
    ].sort();
    const ruling = look.ruler?.animal === aggressor ? look.ruler : undefined;
    return {
      subjects: [{ id: aggressor.id, role: 'ruler' }, ...victims.map(({ target }) => ({ id: target.id, role: 'victim' }))],
      data: {
        ...(ruling === undefined ? {} : { wins: inTen(ruling.chance), rivals: { value: ruling.rivals, unit: '1' } }),
        ...(ruling === undefined || look.next === undefined
          ? {}
          : { next: { animal: look.next.animal.id }, nextWins: inTen(look.next.chance) }),
        step: { keys: [stepWord(Math.max(...victims.map(({ treatment }) => treatment.atMost)), options)] },
        target: { animal: worst.target.id },
        ...(refuge.wantedL > 0 ? { wanted: litres(refuge.wantedL) } : {}),
        ...(Number.isNaN(refuge.leftL)
          ? {}
          : { left: litres(Math.max(0, refuge.leftL)), missingRock: litres(Math.max(0, -refuge.spareL)) }),
        ...(noShelter === undefined ? {} : { shelter: { keys: [noShelter] } }),
        ...(look.day > (measure.looks[0]?.day ?? look.day) ? { later: { keys: ['later'] } } : {}),
        ...(found.verdict.message === 'dominance.mayHarm' ? { settle: { keys: ['tank.rock'] } } : {}),
        ...(missing.length > 0 ? { missing: { keys: missing } } : {}),
      },
      when: look.day,
      basis: victims.reduce<Basis>((basis, attack) => weakest(basis, attack.basis), 'measured'),
    };
  },
};

/** Less rock is left to its target. */
function isWorseOff(one: Attack, other: Attack): boolean {
  if (isUnder(one.refuge.spareL, other.refuge.spareL)) return true;
  return !isUnder(other.refuge.spareL, one.refuge.spareL) && byKindAndLength(one.target, other.target, one.day) < 0;
}

const inTen = (chance: number): Datum => ({ value: Math.round(chance * 10), unit: '1' });

const litres = (value: number): Datum => ({ value: Math.round(value * 10) / 10, unit: 'L' });

const stepWord = (step: number, { bites, kills }: AttackOptions): string => (step >= kills ? 'kills' : step >= bites ? 'bites' : 'chases');

function lookAt(stock: Stock, day: number, strengths: StrengthBook, options: AttackOptions): DominanceLook {
  const { order, unranked } = expectedHierarchy(stock, day, options, strengths);
  const [ruler, next] = order;
  const present = stock.animals.filter((animal) => isThere(stock, animal, day));
  // Only whom one of its own sort leaves without a rank may turn out to rule.
  const mayRuleUnranked = (animal: StockAnimal): boolean =>
    unranked.every((one) => one.animal !== animal) && unranked.some((one) => sameSort(one.animal, animal));
  return {
    day,
    ruler,
    next,
    attacks: ruler === undefined ? [] : attacksBy(stock, ruler.animal, present, day, strengths, options),
    attacksByOthers:
      unranked.length === 0
        ? []
        : [...unranked.map(({ animal }) => animal), ...present.filter((animal) => mayRuleUnranked(animal))].flatMap((animal) =>
            animal === ruler?.animal ? [] : attacksBy(stock, animal, present, day, strengths, options),
          ),
  };
}

/** What one does to all that it does not keep company with. Those that are too many of their kind are the matter of `company`. */
function attacksBy(
  stock: Stock,
  aggressor: StockAnimal,
  present: readonly StockAnimal[],
  day: number,
  strengths: StrengthBook,
  options: AttackOptions,
): Attack[] {
  return present.flatMap((target) => {
    if (target === aggressor || !sameSort(aggressor, target) || companionship(stock, aggressor, target) !== 'strangers') return [];
    const others = present.filter((animal) => animal !== target && animal !== aggressor);
    return attackOf(stock, aggressor, target, day, () => false, strengths, options, others) ?? [];
  });
}

interface Found {
  readonly look: DominanceLook;
  readonly verdict: Verdict;
  readonly victims: readonly Attack[];
}

/** The gravest of the looks, failures before doubts, then the sooner. */
function gravest({ looks }: DominanceMeasure, options: Readonly<Record<Option, number>>): Found | undefined {
  const found = looks.flatMap((look) => foundIn(look, options) ?? []);
  const rank = ({ verdict }: Found): number => (verdict.level === 'error' ? 2 : 0) + (verdict.outcome === 'failed' ? 1 : 0);
  return found.reduce<Found | undefined>((worst, one) => (worst === undefined || rank(one) > rank(worst) ? one : worst), undefined);
}

function foundIn(look: DominanceLook, options: Readonly<Record<Option, number>>): Found | undefined {
  const levelOf = (victims: readonly Attack[]): 'error' | 'warning' =>
    victims.some(({ treatment }) => treatment.atMost >= options.kills) ? 'error' : 'warning';
  const victims = look.attacks.filter((attack) => harms(attack, options));
  if (victims.length > 0) return { look, victims, verdict: { outcome: 'failed', level: levelOf(victims), message: 'dominance.harms' } };
  const perhaps = look.attacks.filter((attack) => mayHarm(attack, options));
  // One at a time, each would rule by itself: the one that may do worst, whatever they are called.
  const byStranger = gravestStranger(look, options);
  // A doubt about the ruler goes first, save where another may do worse.
  const isGraver = byStranger.length > 0 && levelOf(byStranger) === 'error' && levelOf(perhaps) !== 'error';
  const doubts = perhaps.length === 0 || isGraver ? byStranger : perhaps;
  if (doubts.length === 0) return undefined;
  const gaps = doubts.some((attack) => attack.missing.length > 0 || attack.refuge.missing.length > 0);
  return {
    look,
    victims: doubts,
    verdict: { outcome: 'cantTell', level: levelOf(doubts), message: gaps ? 'dominance.unknown' : 'dominance.mayHarm' },
  };
}

function gravestStranger({ attacksByOthers, day }: DominanceLook, options: Readonly<Record<Option, number>>): Attack[] {
  const byAggressor = new Map<StockAnimal, Attack[]>();
  for (const attack of attacksByOthers) {
    if (!mayHarm(attack, options)) continue;
    byAggressor.set(attack.aggressor, [...(byAggressor.get(attack.aggressor) ?? []), attack]);
  }
  const gravity = (attacks: readonly Attack[]): number => Math.max(...attacks.map(({ treatment }) => treatment.atMost));
  const [worst] = [...byAggressor].sort(
    ([one, its], [other, others]) => gravity(others) - gravity(its) || others.length - its.length || byKindAndLength(one, other, day),
  );
  return worst?.[1] ?? [];
}

const harms = ({ treatment, odds, refuge, noShelter }: Attack, { chases, oneSided }: Readonly<Record<Option, number>>): boolean =>
  (treatment.step ?? 0) >= chases && odds.centre >= oneSided && (noShelter !== undefined || isUnder(refuge.spareL, 0));

/** As in `rivalry`, whether a chase finds a refuge is not worth a doubt about litres. */
function mayHarm(
  { treatment, odds, refuge, noShelter, maybeNoShelter }: Attack,
  { bites, oneSided }: Readonly<Record<Option, number>>,
): boolean {
  const isWorthADoubt = treatment.atMost >= bites || refuge.missing.length > 0;
  const mayLack = noShelter !== undefined || maybeNoShelter;
  return odds.high >= oneSided && (mayLack || isUnder(isWorthADoubt ? refuge.spareAtWorstL : refuge.spareL, 0));
}
