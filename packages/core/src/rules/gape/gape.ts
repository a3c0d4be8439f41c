import type { Datum, Level, Subject } from '@commensal/schema';
import { crossedBy, everCrosses, firstCrossing, type Growing } from '../../biology/first-crossing.js';
import { lengthAfter } from '../../biology/length-after.js';
import { DAYS_PER_YEAR, isoOf } from '../../quantity/days.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { lower } from '../levels.js';
import { PASSED, type Rule, type Telling, type Verdict } from '../rule.js';
import { arePartners } from '../partners.js';
import { meetingOf } from '../meeting.js';
import { arrivalOf } from '../presence.js';
import { doubtAtFullSize, doubtOn } from './doubt.js';
import { firstLook, marginAtWorst } from './first-look.js';
import { type Interest, interestIn } from './interest.js';
import { lengthBook } from './lengths.js';
import { gapeDefaults, type GapeOption, type GapeOptions } from './options.js';
import { basisOf, beyondDoubt, fullSizeMarginAtWorst, type Gaps, gapsOf, lengthOn, type Pairing, pairingOf } from './pairing.js';
import { canBePrey, neverFits, type Prey, preyOf, sideOf, type Swallower, swallowerOf } from './sides.js';

/** One judgement: a swallower and its prey. */
export interface GapeMeasure {
  readonly predator: StockAnimal;
  readonly prey: StockAnimal;
  /** What is missing for its numbers. */
  readonly gaps: Gaps | undefined;
  /** Undefined with gaps, and where the prey is so far out of reach that no numbers were needed. */
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
    'needs.partners',
  ],
  sources: ['mihalitsis-bellwood-2017', 'dunic-baum-2017', 'price-2022', 'froese-binohlan-2000'],
  defaults: gapeDefaults,

  measure(stock, options, each) {
    const lastDay = lastDayOf(stock);
    const sides = stock.animals.map(sideOf);
    const bodies = sides.filter(({ animal }) => canBePrey(animal)).map((side) => preyOf(side, arrivalOf(stock, side.animal)));
    for (const side of sides) {
      if (side.animal.kind.gapeClass === 'notGapeLimited') continue;
      const swallower = swallowerOf(side, lastDay, options);
      for (const body of bodies) {
        // Partners live together without harm.
        if (body.animal === side.animal || arePartners(side.animal.kind, body.animal.kind)) continue;
        const together = meetingOf(stock, side.animal, body.animal);
        if (together !== undefined) each(measurePair(stock, swallower, body, together.from, together.until, options));
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

/** The last day on which any two are compared. */
export const lastDayOf = (stock: Stock): number =>
  stock.animals.reduce((last, animal) => Math.max(last, arrivalOf(stock, animal)), stock.horizonDay);

/** A swallower and its prey from a day on to another. Doubts are dear to follow: who asks for failures alone leaves them out. */
export function measurePair(
  stock: Stock,
  swallower: Swallower,
  body: Prey,
  from: number,
  until: number,
  options: GapeOptions,
  withDoubts = true,
): GapeMeasure {
  const { animal: predator } = swallower;
  const { animal: prey } = body;
  const isOut = neverFits(swallower, body);
  const pairing = isOut ? undefined : pairingOf(swallower, body, from);
  const reach = pairing === undefined ? NO_REACH : reachOf(stock, pairing, swallower, body, from, until, options, withDoubts);
  // Written out, not spread: a spread costs more than all the arithmetic.
  return {
    predator,
    prey,
    gaps: isOut || pairing !== undefined ? undefined : gapsOf(swallower, body),
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
  swallower: Swallower,
  body: Prey,
  from: number,
  until: number,
  options: GapeOptions,
  withDoubts: boolean,
): Reach {
  const { predator, prey, ratio, mouthRatio, predatorFullCm, preyFullCm } = pairing;
  const years = (until - from) / DAYS_PER_YEAR;
  const crossing = firstCrossing(predator, prey, ratio, years);
  const lastDay = Math.max(stock.horizonDay, until);
  const stays = swallower.animal.leaveDay > lastDay && body.animal.leaveDay > lastDay;
  const fails = crossing <= years;
  const atFullSize = !fails && stays && fitsLater(pairing, years, options);
  const easyRatio = easyRatioOf(mouthRatio, ratio, options);
  const easyMouthful = fails ? everCrosses(predator, prey, easyRatio, years) : atFullSize && predatorFullCm >= easyRatio * preyFullCm;
  const doubtful = withDoubts && !fails && !atFullSize;
  return {
    firstDay: fails ? from + Math.floor(crossing * DAYS_PER_YEAR) : Infinity,
    possibleDay: doubtful ? firstDoubtfulDay(pairing, swallower, body, from, until) : Infinity,
    atFullSize,
    possibleAtFullSize: doubtful && stays && fullSizeMarginAtWorst(pairing, swallower.animal, body.animal) >= 0,
    easyMouthful,
  };
}

/** Beyond the horizon both grow on to full size. */
function fitsLater({ predator, prey, ratio, predatorFullCm, preyFullCm }: Pairing, years: number, options: GapeOptions): boolean {
  const { startCm, ratePerYear } = predator;
  const until = years + options.lookBeyondYears;
  return fitsFullGrown(startCm, predatorFullCm, ratePerYear, prey.startCm, prey.asymptoticCm, prey.ratePerYear, preyFullCm, ratio, until);
}

/** The same of plain numbers: lengths in cm, those of the prey last; `untilYears` is how long growth is followed. */
export const fitsFullGrown = (
  startCm: number,
  fullCm: number,
  rate: number,
  preyStartCm: number,
  preyAsymptoticCm: number,
  preyRate: number,
  preyFullCm: number,
  ratio: number,
  untilYears: number,
): boolean =>
  fullCm >= ratio * preyFullCm ||
  crossedBy(startCm, fullCm, rate, preyStartCm, preyAsymptoticCm, preyRate, ratio, untilYears) < Number.POSITIVE_INFINITY;

/** How many times as long as the prey a swallower is to which it is an easy mouthful. */
export const easyRatioOf = (mouthRatio: number, ratio: number, { smallShare }: GapeOptions): number =>
  Math.max(mouthRatio / smallShare, ratio);

/**
 * Days between the looks at a span for a doubt; its first day is then closed in by halving. Margins turn over years. Looks
 * are counted back from the end, which pairs share, so that their lengths are worked out once.
 */
const LOOK_DAYS = 64;

function firstDoubtfulDay(pairing: Pairing, predator: Swallower, prey: Prey, from: number, until: number): number {
  if (beyondDoubt(pairing, predator.lengthOn(until), prey.lengthOn(from))) return Infinity;
  const last = Math.ceil((until - from) / LOOK_DAYS);
  const dayOf = (look: number): number => (look === 0 ? from : until - LOOK_DAYS * (last - look));
  const look = firstLook(pairing, predator.lengthOn, prey.lengthOn, { last, dayOf });
  if (look === undefined) return Infinity;
  const margin = (day: number): number => marginAtWorst(pairing, predator.lengthOn(day), prey.lengthOn(day));
  return look === 0 ? from : firstBetween(dayOf(look - 1), dayOf(look), margin);
}

/** The first day on which a margin is 0 or more, between one on which it is not and one on which it is: where the line between them says, and then beside it. */
function firstBetween(without: number, withIt: number, margin: (day: number) => number): number {
  let before = without;
  let first = withIt;
  let [atBefore, atFirst] = [margin(before), margin(first)];
  for (let step = 0; first - before > 1; step += 1) {
    const onLine = before + Math.ceil(((first - before) * atBefore) / (atBefore - atFirst));
    // What is met from one side only would be met day by day: every third step halves.
    const day = step % 3 === 2 ? (before + first) >> 1 : Math.min(Math.max(onLine, before + 1), first - 1);
    const there = margin(day);
    if (there >= 0) {
      first = day;
      atFirst = there;
    } else {
      before = day;
      atBefore = there;
    }
  }
  return first;
}

const LEVELS: Readonly<Record<Interest, readonly [ordinary: Level, easy: Level]>> = {
  habitual: ['error', 'error'],
  opportunist: ['warning', 'error'],
  noneRecorded: ['note', 'warning'],
  unknown: ['error', 'error'],
};

/** The level of a danger: lower where it lies beyond the horizon, and to prey that is spared. */
export const gapeLevel = (interest: Interest, easyMouthful: boolean, later: boolean, spared: boolean): Level =>
  lower(LEVELS[interest][easyMouthful ? 1 : 0], (later ? 1 : 0) + (spared ? 1 : 0));

/** From numbers to an outcome and a level. "Can it", never "will it": appetite moves the level, never the outcome. */
export function judgeGape(measure: GapeMeasure): Verdict {
  const levelAt = (later: boolean): Level => gapeLevel(measure.interest, measure.easyMouthful, later, measure.spared);
  if (measure.gaps !== undefined) return { outcome: 'cantTell', level: levelAt(false), message: 'gape.unknown' };
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
  return { subjects, data, when: later ? null : day, basis: basisOf(predator, prey, options) };
}

/**
 * The smallest length at the start with which the prey stays safe to the end of the span; undefined where only a length
 * beyond its own full size would do. Longer prey is never in more danger, so halving finds it.
 */
function smallestSafeLength({ predator, prey, ratio, preyFullCm }: Pairing, years: number): number | undefined {
  const fails = (startCm: number): boolean =>
    everCrosses(predator, { startCm, asymptoticCm: prey.asymptoticCm, ratePerYear: prey.ratePerYear }, ratio, years);
  let short = prey.startCm;
  let long = Math.min(preyFullCm, prey.asymptoticCm);
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
