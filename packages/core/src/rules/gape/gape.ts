import type { Datum, Level, Subject } from '@commensal/schema';
import { firstCrossing, type Growing } from '../../biology/first-crossing.js';
import { lengthAfter } from '../../biology/length-after.js';
import { DAYS_PER_YEAR, isoOf } from '../../quantity/days.js';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { lower } from '../levels.js';
import { INAPPLICABLE, PASSED, type Rule, type Telling, type Verdict } from '../rule.js';
import { meetingOf } from '../meeting.js';
import { doubtAtFullSize, doubtOn } from './doubt.js';
import { type Interest, interestIn } from './interest.js';
import { type LengthBook, lengthBook } from './lengths.js';
import { gapeDefaults, type GapeOption, type GapeOptions } from './options.js';
import { beyondDoubt, fullSizeMarginAtWorst, type Gaps, lengthOn, marginAtWorst, type Pairing, pairingOf } from './pairing.js';

/** One judgement: a swallower and its prey. */
export interface GapeMeasure {
  readonly predator: StockAnimal;
  readonly prey: StockAnimal;
  readonly gaps: Gaps | undefined;
  readonly pairing: Pairing | undefined;
  readonly fromDay: number;
  /** First day on which the body passes, at the centre; Infinity when it never does within the horizon. */
  readonly firstDay: number;
  /** First day on which it may pass, at the point less favourable to the prey. */
  readonly possibleDay: number;
  /** The body passes at some time beyond the horizon; or may. */
  readonly atFullSize: boolean;
  readonly possibleAtFullSize: boolean;
  /** The prey is at some time under a third of the limit. */
  readonly easyMouthful: boolean;
  readonly interest: Interest;
  readonly spared: boolean;
}

/** Does one animal's mouth pass the other's body, and from which day? */
export const gape: Rule<GapeMeasure, GapeOption> = {
  id: 'gape',
  question: 'Can one of these animals swallow the other?',
  scope: 'pair',
  planning: 'pair',
  longer: { worse: 'predator', better: 'prey' },
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'either' },
  needs: [
    'size.entry',
    'size.totalPerStandard',
    'growth.asymptoticLength',
    'growth.rate',
    'shape.bodyDepth',
    'shape.defendedDepth',
    'shape.lowerJaw',
    'shape.gapeClass',
    'feeding.fishEating',
    'feeding.eats',
    'feeding.cleans',
  ],
  sources: ['mihalitsis-bellwood-2017', 'dunic-baum-2017', 'price-2022', 'froese-binohlan-2000'],
  defaults: gapeDefaults,

  measure(stock, options, each) {
    const lengths = lengthBook();
    for (const predator of stock.animals) {
      if (predator.kind.gapeClass === 'notGapeLimited') continue;
      for (const prey of stock.animals) {
        if (predator !== prey && canBePrey(prey)) {
          const measure = measurePair(stock, predator, prey, options, lengths);
          if (measure !== undefined) each(measure);
        }
      }
    }
  },

  judge(measure) {
    return judgeGape(measure);
  },

  tell(measure, verdict, stock, options) {
    return tellGape(measure, verdict, stock, options);
  },
};

/** Shells, spines and stings are no matter of the gape. */
const canBePrey = (animal: StockAnimal): boolean =>
  animal.kind.form === 'fish' || animal.kind.form === 'shrimp' || animal.kind.form === 'crab';

function measurePair(
  stock: Stock,
  predator: StockAnimal,
  prey: StockAnimal,
  options: GapeOptions,
  lengths: LengthBook,
): GapeMeasure | undefined {
  const together = meetingOf(stock, predator, prey);
  if (together === undefined) return undefined;
  const { from, until } = together;
  const found = pairingOf(predator, prey, from, options);
  const pairing = 'ratio' in found && predator.kind.gapeClass !== undefined ? found : undefined;
  const gaps: Gaps | undefined = pairing !== undefined ? undefined : 'ratio' in found ? { predator: ['shape.gapeClass'], prey: [] } : found;
  const reach = pairing === undefined ? NO_REACH : reachOf(stock, pairing, predator, prey, from, until, options, lengths);
  // Written out, not spread: a spread costs more than all the arithmetic.
  return {
    predator,
    prey,
    gaps,
    pairing,
    fromDay: from,
    firstDay: reach.firstDay,
    possibleDay: reach.possibleDay,
    atFullSize: reach.atFullSize,
    possibleAtFullSize: reach.possibleAtFullSize,
    easyMouthful: reach.easyMouthful,
    interest: interestIn(predator.kind, prey.kind),
    spared: prey.kind.record.feeding?.cleans?.value === true,
  };
}

type Reach = Pick<GapeMeasure, 'firstDay' | 'possibleDay' | 'atFullSize' | 'possibleAtFullSize' | 'easyMouthful'>;

const NO_REACH: Reach = { firstDay: Infinity, possibleDay: Infinity, atFullSize: false, possibleAtFullSize: false, easyMouthful: false };

/** When the prey is within reach of the mouth: from a day on, at full size, or perhaps. */
function reachOf(
  stock: Stock,
  pairing: Pairing,
  predator: StockAnimal,
  prey: StockAnimal,
  from: number,
  until: number,
  options: GapeOptions,
  lengths: LengthBook,
): Reach {
  const years = (until - from) / DAYS_PER_YEAR;
  const crossing = firstCrossing(pairing.predator, pairing.prey, pairing.ratio, years);
  const lastDay = Math.max(stock.horizonDay, until);
  const stays = predator.leaveDay > lastDay && prey.leaveDay > lastDay;
  const fails = crossing <= years;
  const atFullSize = !fails && stays && fitsLater(pairing, years, options);
  const easyRatio = Math.max(pairing.mouthRatio / options.smallShare, pairing.ratio);
  const easyMouthful = fails
    ? firstCrossing(pairing.predator, pairing.prey, easyRatio, years) <= years
    : atFullSize && pairing.predatorFullCm >= easyRatio * pairing.preyFullCm;
  const doubtful = !fails && !atFullSize;
  return {
    firstDay: fails ? from + Math.floor(crossing * DAYS_PER_YEAR) : Infinity,
    possibleDay: doubtful ? firstDoubtfulDay(pairing, predator, prey, from, until, lengths) : Infinity,
    atFullSize,
    possibleAtFullSize: doubtful && stays && fullSizeMarginAtWorst(pairing, predator, prey) >= 0,
    easyMouthful,
  };
}

/** Beyond the horizon both grow on to full size. */
function fitsLater(pairing: Pairing, years: number, options: GapeOptions): boolean {
  if (pairing.predatorFullCm >= pairing.ratio * pairing.preyFullCm) return true;
  const toFull = (growth: Growing, fullCm: number): Growing => ({ ...growth, asymptoticCm: fullCm });
  return (
    firstCrossing(toFull(pairing.predator, pairing.predatorFullCm), pairing.prey, pairing.ratio, years + options.lookBeyondYears) <=
    years + options.lookBeyondYears
  );
}

/**
 * Days between the looks at a span for a doubt; its first day is then closed in by halving. Margins turn over years. Looks
 * are counted back from the end, which pairs share, so that their lengths are worked out once.
 */
const LOOK_DAYS = 64;

function firstDoubtfulDay(
  pairing: Pairing,
  predator: StockAnimal,
  prey: StockAnimal,
  from: number,
  until: number,
  lengths: LengthBook,
): number {
  if (beyondDoubt(pairing, predator, prey, from, until, lengths)) return Infinity;
  const doubtfulOn = (day: number): boolean => marginAtWorst(pairing, predator, prey, day, lengths) >= 0;
  if (doubtfulOn(from)) return from;
  let safe = from;
  for (let next = until - LOOK_DAYS * (Math.ceil((until - from) / LOOK_DAYS) - 1); next <= until; next += LOOK_DAYS) {
    if (doubtfulOn(next)) return firstBetween(safe, next, doubtfulOn);
    safe = next;
  }
  return Infinity;
}

/** The first day on which something holds, between one on which it does not and one on which it does. */
function firstBetween(without: number, withIt: number, holds: (day: number) => boolean): number {
  let before = without;
  let first = withIt;
  while (first - before > 1) {
    const middle = Math.floor((before + first) / 2);
    if (holds(middle)) first = middle;
    else before = middle;
  }
  return first;
}

const LEVELS: Readonly<Record<Interest, readonly [ordinary: Level, easy: Level]>> = {
  habitual: ['error', 'error'],
  opportunist: ['warning', 'error'],
  noneRecorded: ['note', 'warning'],
  unknown: ['error', 'error'],
};

/** From numbers to an outcome and a level. "Can it", never "will it": appetite moves the level, never the outcome. */
export function judgeGape(measure: GapeMeasure): Verdict {
  const levelAt = (later: boolean): Level => {
    const level = LEVELS[measure.interest][measure.easyMouthful ? 1 : 0];
    return lower(level, (later ? 1 : 0) + (measure.spared ? 1 : 0));
  };
  if (measure.gaps !== undefined) return { outcome: 'cantTell', level: levelAt(false), message: 'gape.unknown' };
  if (measure.pairing === undefined) return INAPPLICABLE;
  if (measure.firstDay === measure.fromDay) {
    const residents = measure.predator.role === 'resident' && measure.prey.role === 'resident';
    return { outcome: 'failed', level: levelAt(false), message: residents ? 'gape.fitsNow' : 'gape.fitsOnEntry' };
  }
  if (measure.firstDay < Infinity) return { outcome: 'failed', level: levelAt(false), message: 'gape.fitsFrom' };
  if (measure.atFullSize) return { outcome: 'failed', level: levelAt(true), message: 'gape.fitsAtFullSize' };
  if (measure.possibleDay < Infinity) return { outcome: 'cantTell', level: levelAt(false), message: 'gape.mayFit' };
  if (measure.possibleAtFullSize) return { outcome: 'cantTell', level: levelAt(true), message: 'gape.mayFitAtFullSize' };
  return PASSED;
}

/** Lengths when danger sets in. The day is rounded down, so that a body that comes to fit in its course fits at its end. */
function lengthsFrom({ predator, prey, fromDay }: GapeMeasure, day: number): { predatorCm: number; preyCm: number } {
  const at = day === fromDay ? day : day + 1;
  return { predatorCm: lengthOn(predator, at), preyCm: lengthOn(prey, at) };
}

/** Full sizes; where danger is over by then, the lengths at which it sets in. */
function laterLengths(pairing: Pairing, options: GapeOptions): { predatorCm: number; preyCm: number } {
  const full = { predatorCm: pairing.predatorFullCm, preyCm: pairing.preyFullCm };
  if (full.predatorCm >= pairing.ratio * full.preyCm) return full;
  const predator = { ...pairing.predator, asymptoticCm: full.predatorCm };
  const years = firstCrossing(predator, pairing.prey, pairing.ratio, options.lookBeyondYears);
  if (years === Infinity) return full;
  const after = ({ startCm, asymptoticCm, ratePerYear }: Growing): number => lengthAfter(startCm, asymptoticCm, ratePerYear, years);
  return { predatorCm: after(predator), preyCm: after(pairing.prey) };
}

function tellGape(measure: GapeMeasure, verdict: Verdict, stock: Stock, options: GapeOptions): Telling {
  const { predator, prey, pairing } = measure;
  const subjects: Subject[] = [
    { id: predator.id, role: 'predator' },
    { id: prey.id, role: 'prey' },
  ];
  const interest: Datum = { keys: [measure.interest] };
  const spared: Record<string, Datum> = measure.spared ? { spared: { keys: ['cleaner'] } } : {};
  if (measure.gaps !== undefined || pairing === undefined) {
    const { predator: ofPredator, prey: ofPrey } = measure.gaps ?? { predator: [], prey: [] };
    const whose = ofPredator.length > 0 ? predator : prey;
    return {
      subjects,
      data: { interest, missing: { keys: [...(whose === predator ? ofPredator : ofPrey)] }, of: { animal: whose.id }, ...spared },
      when: null,
      basis: 'recalled',
    };
  }
  const later = verdict.message === 'gape.fitsAtFullSize' || verdict.message === 'gape.mayFitAtFullSize';
  const day = Math.min(measure.firstDay, measure.possibleDay);
  const { predatorCm, preyCm } = later ? laterLengths(pairing, options) : lengthsFrom(measure, day);
  const data: Record<string, Datum> = {
    interest,
    predatorLength: { value: rounded(predatorCm), unit: 'cm' },
    preyLength: { value: rounded(preyCm), unit: 'cm' },
    limit: { value: rounded(predatorCm * pairing.limitPerTotal), unit: 'cm' },
    preyDepth: { value: rounded(preyCm * pairing.depthPerTotal), unit: 'cm' },
    ...(pairing.isDefended ? { defended: { keys: ['defended'] } } : {}),
    ...spared,
  };
  if (verdict.outcome === 'cantTell') {
    const doubt = later ? doubtAtFullSize(pairing, predator, prey) : doubtOn(pairing, predator, prey, day, lengthBook());
    data.inDoubt = { keys: [doubt.about] };
    data.settle = { keys: [doubt.field] };
    data.of = { animal: doubt.of.id };
  } else if (!later) {
    const safe = smallestSafeLength(pairing, Math.max(0, stock.horizonDay - measure.fromDay) / DAYS_PER_YEAR);
    if (safe !== undefined) data.safeLength = { value: roundedUp(safe), unit: 'cm' };
    if (day > measure.fromDay) data.lastSafeDay = { date: isoOf(day - 1) };
  }
  return { subjects, data, when: later ? null : day, basis: weakest(pairing.basis) };
}

/**
 * The smallest length at the start with which the prey stays safe to the end of the span; undefined where only a length
 * beyond its own full size would do. Longer prey is never in more danger, so halving finds it.
 */
function smallestSafeLength(pairing: Pairing, years: number): number | undefined {
  const fails = (startCm: number): boolean => firstCrossing(pairing.predator, { ...pairing.prey, startCm }, pairing.ratio, years) <= years;
  let short = pairing.prey.startCm;
  let long = Math.min(pairing.preyFullCm, pairing.prey.asymptoticCm);
  if (long <= short || fails(long)) return undefined;
  while (long - short > 0.01) {
    const middle = (short + long) / 2;
    if (fails(middle)) short = middle;
    else long = middle;
  }
  return long;
}

const rounded = (value: number): number => Math.round(value * 10) / 10;
const roundedUp = (value: number): number => Math.ceil(value * 2) / 2;
