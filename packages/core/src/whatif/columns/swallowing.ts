import { crossedBy, crossingOf } from '../../biology/first-crossing.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import { easyRatioOf, fitsFullGrown, judgeGape, lastDayOf, measurePair } from '../../rules/gape/gape.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import { type Prey, preyOf, ROUNDING, sideOf, type Swallower, swallowerOf } from '../../rules/gape/sides.js';
import { arrivalOf } from '../../rules/presence.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { type Asking, isOutright } from '../scenario/outputs.js';
import type { Run } from '../scenario/runs.js';
import { writeOutcome } from '../scenario/tally.js';
import { type Columns, lengthIn } from './columns.js';
import { CLOSE, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import { fitFactor, isSureOfLength, load, type MouthsAndBodies, mouthsAndBodies } from './mouths-and-bodies.js';
import type { Places } from './places.js';
import { failureOf, type SwallowingPair, swallowingPairs } from './swallowing-pairs.js';

/** A little less than one: what lies between is left to the rule itself. */
const UNDER = 1 - ROUNDING;

/** All that is laid out for a stock, and what a scenario has come to so far. */
interface Layout {
  readonly columns: Columns;
  readonly options: GapeOptions;
  readonly askings: readonly Asking[];
  readonly sides: MouthsAndBodies;
  /** Pairs of which everything is known, from the gravest down. */
  readonly pairs: readonly SwallowingPair[];
  /** Of each the two, and the gravest that it may come to. */
  readonly predators: Int32Array;
  readonly preys: Int32Array;
  readonly ceilings: Int32Array;
  /** The gravest that it may come to without being an easy mouthful. */
  readonly ordinary: Int32Array;
  /** How deep an easy mouthful is, as a share of what can be swallowed. */
  readonly easyShare: number;
  /** Whether outcomes alone are asked, of all pairs. */
  readonly isPlain: boolean;
  /** Ranks of what does not vary, one for each that is asked. */
  readonly least: Int32Array;
  /** The rank and the first day of failure of each that is asked, so far. */
  readonly ranks: Int32Array;
  readonly firsts: Float64Array;
  /** Pairs that do not fail, and may be in doubt. */
  readonly doubtful: SwallowingPair[];
}

/**
 * The rule `gape` over many scenarios of one stock: what it comes to and when it first fails, as the rule says itself, without an object a pair.
 *
 * Who could swallow whom, from when on and at which level, is laid out once; of the animals, numbers are read in each scenario. Pairs are gone through from the
 * gravest down, so that what cannot change the answer is not worked out; doubts come last, as every failure is graver. Where a bound of a few products
 * settles nothing, and where lengths have errors, a doubt is put to the rule's own functions. Lengths that other rules have worked out are taken from their places.
 */
export function swallowingRun(columns: Columns, places: Places | undefined, options: GapeOptions, askings: readonly Asking[]): Run['run'] {
  const layout = layOut(columns, places, options, askings);
  return (_values, written, into, at) => {
    start(layout);
    const doubts = lookForFailures(layout);
    if (doubts > 0) lookForDoubts(layout, doubts, written);
    for (let index = 0; index < askings.length; index += 1) {
      const { what, column } = askings[index] as Asking;
      const first = layout.firsts[index] as number;
      if (what === 'outcome') writeOutcome(layout.ranks[index] as number, into, at + column);
      else into[at + column] = first === Number.POSITIVE_INFINITY ? Number.NaN : first;
    }
  };
}

function layOut(columns: Columns, places: Places | undefined, options: GapeOptions, askings: readonly Asking[]): Layout {
  const all = swallowingPairs(columns.stock, askings);
  const least = new Int32Array(askings.length).fill(all.length === 0 ? NOTHING_RANK : PASSED_RANK);
  for (const { isGap, mayFail, outcomes } of all) {
    if (isGap) for (const at of outcomes) least[at] = Math.max(least[at] as number, mayFail);
  }
  const pairs = all.filter(({ isGap, outcomes, days }) => !isGap && outcomes.length + days.length > 0);
  return {
    columns,
    options,
    askings,
    sides: mouthsAndBodies(columns, places, options, all),
    pairs,
    predators: Int32Array.from(pairs, ({ predator }) => predator),
    preys: Int32Array.from(pairs, ({ prey }) => prey),
    ceilings: Int32Array.from(pairs, ({ failsEasily }) => failsEasily),
    ordinary: Int32Array.from(pairs, ({ fails, failsLater }) => Math.max(fails, failsLater)),
    easyShare: Math.min(1, options.smallShare),
    isPlain: askings.every(isOutright),
    least,
    ranks: new Int32Array(askings.length),
    firsts: new Float64Array(askings.length),
    doubtful: [],
  };
}

function start({ ranks, firsts, least }: Layout): void {
  for (let index = 0; index < least.length; index += 1) {
    ranks[index] = least[index] as number;
    firsts[index] = Number.POSITIVE_INFINITY;
  }
}

/** Looks for failures that change the answer, and says how many pairs may be in doubt. */
function lookForFailures(layout: Layout): number {
  const { pairs, predators, preys, ceilings, ordinary, easyShare, sides, options, columns, doubtful, isPlain, ranks } = layout;
  const { loadedIn, deepest, longest, shallowest, shortest, limitPer, capRatio, depth, full, asked } = sides;
  const today = columns.stock.day;
  const { scenario } = columns;
  let reached = leastOf(ranks);
  let doubts = 0;
  for (let index = 0; index < pairs.length; index += 1) {
    // All others are no graver.
    if (isPlain && (ceilings[index] as number) <= reached) break;
    const predator = predators[index] as number;
    const prey = preys[index] as number;
    if (loadedIn[predator] !== scenario) load(sides, predator, scenario);
    if (loadedIn[prey] !== scenario) load(sides, prey, scenario);
    // Where no more is open than whether it is an easy mouthful, few are shallow enough.
    const isEasyAlone = isPlain && (ordinary[index] as number) <= reached;
    const deep = isEasyAlone ? (deepest[predator] as number) * easyShare : (deepest[predator] as number);
    if (deep < (shallowest[prey] as number) || (longest[predator] as number) < (shortest[prey] as number)) continue;
    const pair = pairs[index] as SwallowingPair;
    const { from, failsEasily } = pair;
    if (!isPlain && !raises(layout, pair, failsEasily) && !isSooner(layout, pair, failsEasily, from - today)) continue;
    const ratio = Math.max((depth[prey] as number) / (limitPer[predator] as number), capRatio[predator] as number);
    asked[0] = ratio;
    if (fits(sides, pair)) {
      let rank = pair.fails;
      if (failsEasily > rank && (raises(layout, pair, failsEasily) || pair.days.length > 0)) {
        askEasily(sides, pair, options);
        if (fits(sides, pair)) rank = failsEasily;
        asked[0] = ratio;
      }
      raise(layout, pair, rank);
      reached = leastOf(ranks);
      if (isSooner(layout, pair, rank, from - today)) comeBy(layout, pair, rank);
      continue;
    }
    if (pair.outcomes.length === 0) continue;
    if (pair.stays && raises(layout, pair, pair.failsLaterAtMost) && fitsLater(sides, pair, options)) {
      // Full size is never less than what it is on the first day.
      askEasily(sides, pair, options);
      const isEasy = (full[predator] as number) >= (asked[0] as number) * (full[prey] as number);
      raise(layout, pair, isEasy ? pair.failsLaterEasily : pair.failsLater);
      reached = leastOf(ranks);
    } else {
      doubtful[doubts] = pair;
      doubts += 1;
    }
  }
  return doubts;
}

/** Asks for an easy mouthful instead. */
function askEasily({ depth, limitPer, asked }: MouthsAndBodies, { predator, prey }: SwallowingPair, options: GapeOptions): void {
  asked[0] = easyRatioOf((depth[prey] as number) / (limitPer[predator] as number), asked[0] as number, options);
}

/** Whether the one is at some time up to the last day as many times as long as the other as is asked. */
function fits(sides: MouthsAndBodies, pair: SwallowingPair): boolean {
  const is = fitsByBounds(sides, pair);
  return is < 0 ? crosses(sides, pair) : is === 1;
}

/** The same by what they are in the end: 1 or 0, -1 where that does not tell. */
function fitsByBounds(sides: MouthsAndBodies, pair: SwallowingPair): number {
  const { bands, atHorizon, asked } = sides;
  const { predator, prey } = pair;
  const ratio = asked[0] as number;
  if (!pair.isToTheEnd) return -1;
  const reaches = atHorizon[predator] as number;
  if (reaches > ratio * (atHorizon[prey] as number) * (1 + CLOSE)) return 1;
  // What is measured after the first day counts as it is until then: prey is never shorter.
  return reaches * (1 + CLOSE) < ratio * (bands.length.centre[prey] as number) || isApart(sides, pair) ? 0 : -1;
}

/**
 * Whether straight lines tell that the one is never so many times as long as the other, if it is not on the last day: as animals grow ever more slowly, the prey is
 * no shorter than on the chord from the day on which it was measured to the last, and the predator no longer than with growth as fast as at first, nor than on the last day.
 */
function isApart(sides: MouthsAndBodies, { predator, prey, isPreyMeasured, predatorYears, preyYears }: SwallowingPair): boolean {
  const { bands, end, atHorizon, yearsInAll, asked } = sides;
  if (!isPreyMeasured) return false;
  const ratio = asked[0] as number;
  const reaches = (atHorizon[predator] as number) * (1 + CLOSE);
  const predatorCm = bands.length.centre[predator] as number;
  const perYear = (bands.rate.centre[predator] as number) * ((end[predator] as number) - predatorCm);
  const preyCm = bands.length.centre[prey] as number;
  const preyPerYear = ((atHorizon[prey] as number) - preyCm) / (yearsInAll[prey] as number);
  const preyFirst = preyCm + preyPerYear * preyYears;
  if ((predatorCm + perYear * predatorYears) * (1 + CLOSE) >= ratio * preyFirst && reaches >= ratio * preyFirst) return false;
  // Of such lines the one is longest in terms of the other where the first two meet.
  const meetAfter = perYear > 0 ? Math.max(0, ((atHorizon[predator] as number) - predatorCm) / perYear - predatorYears) : 0;
  return reaches < ratio * (preyFirst + preyPerYear * meetAfter);
}

function crosses(sides: MouthsAndBodies, pair: SwallowingPair): boolean {
  const { predator, prey, years, predatorYears, preyYears } = pair;
  const { bands, end, asked } = sides;
  const { rate } = bands;
  return (
    crossedBy(
      lengthIn(sides.bands, predator, predatorYears),
      end[predator] as number,
      rate.centre[predator] as number,
      lengthIn(sides.bands, prey, preyYears),
      end[prey] as number,
      rate.centre[prey] as number,
      asked[0] as number,
      years,
    ) < Number.POSITIVE_INFINITY
  );
}

/** Whether it is so beyond the last day, as both grow to full size. */
function fitsLater(sides: MouthsAndBodies, pair: SwallowingPair, options: GapeOptions): boolean {
  const { predator, prey } = pair;
  const { bands, end, full, asked } = sides;
  const ratio = asked[0] as number;
  const grown = full[predator] as number;
  if (grown >= ratio * (full[prey] as number)) return true;
  if (grown * (1 + CLOSE) < ratio * (bands.length.centre[prey] as number)) return false;
  // Beyond the last day prey is no shorter than then; up to then it does not fit, if the predator grows to the same length as before.
  if (pair.isToTheEnd && grown === end[predator] && grown * (1 + CLOSE) < ratio * (sides.atHorizon[prey] as number)) return false;
  return fitsFullGrown(
    lengthIn(bands, predator, pair.predatorYears),
    grown,
    bands.rate.centre[predator] as number,
    lengthIn(bands, prey, pair.preyYears),
    end[prey] as number,
    bands.rate.centre[prey] as number,
    full[prey] as number,
    ratio,
    pair.years + options.lookBeyondYears,
  );
}

/** Takes in the day from which a pair fails. */
function comeBy({ sides, columns, askings, firsts }: Layout, pair: SwallowingPair, rank: number): void {
  const { predator, prey, from, years, days } = pair;
  const { bands, end } = sides;
  const crossing = crossingOf(
    lengthIn(bands, predator, pair.predatorYears),
    end[predator] as number,
    bands.rate.centre[predator] as number,
    lengthIn(bands, prey, pair.preyYears),
    end[prey] as number,
    bands.rate.centre[prey] as number,
    sides.asked[0] as number,
    years,
  );
  const day = from - columns.stock.day + Math.floor(crossing * DAYS_PER_YEAR);
  for (let index = 0; index < days.length; index += 1) {
    const to = days[index] as number;
    if (rank >= failureOf((askings[to] as Asking).from)) firsts[to] = Math.min(firsts[to] as number, day);
  }
}

/** Puts doubts that change the answer to the rule's own functions, unless bounds settle them. */
function lookForDoubts(layout: Layout, doubts: number, written: () => Stock): void {
  const { columns, options, sides, doubtful } = layout;
  const { depth, limitPer, capAtWorst, full } = sides;
  let own: Sides | undefined;
  for (let index = 0; index < doubts; index += 1) {
    const pair = doubtful[index] as SwallowingPair;
    const { predator, prey, from, until } = pair;
    if (!raises(layout, pair, pair.mayFail)) continue;
    if (isSureOfLength(sides, predator) && isSureOfLength(sides, prey)) {
      // Without errors of lengths a doubt is a crossing too, at the least ratio that mouth and length may have.
      const mouthRatio = (depth[prey] as number) / (limitPer[predator] as number);
      const ratio = Math.max(mouthRatio / fitFactor(sides, predator, prey), (capAtWorst[predator] as number) * UNDER);
      const mayFitLater = pair.stays && (full[predator] as number) >= ratio * (full[prey] as number);
      sides.asked[0] = ratio;
      if (!mayFitLater && !fits(sides, pair)) continue;
    }
    own ??= sidesOf(written(), lastDayOf(columns.stock), options);
    const verdict = judgeGape(measurePair(columns.stock, own.swallower(predator), own.body(prey), from, until, options));
    raise(layout, pair, rankOfVerdict(verdict));
  }
}

/** The least of some ranks. */
function leastOf(ranks: Int32Array): number {
  let least = ranks[0] as number;
  for (let at = 1; at < ranks.length; at += 1) least = Math.min(least, ranks[at] as number);
  return least;
}

function raises({ ranks }: Layout, { outcomes }: SwallowingPair, rank: number): boolean {
  for (let at = 0; at < outcomes.length; at += 1) if ((ranks[outcomes[at] as number] as number) < rank) return true;
  return false;
}

function raise({ ranks }: Layout, { outcomes }: SwallowingPair, rank: number): void {
  for (let at = 0; at < outcomes.length; at += 1) {
    const to = outcomes[at] as number;
    if ((ranks[to] as number) < rank) ranks[to] = rank;
  }
}

/** Whether a failure from this day on at this rank would be the first of what is asked. */
function isSooner({ firsts, askings }: Layout, { days }: SwallowingPair, rank: number, day: number): boolean {
  for (let at = 0; at < days.length; at += 1) {
    const to = days[at] as number;
    if (day < (firsts[to] as number) && rank >= failureOf((askings[to] as Asking).from)) return true;
  }
  return false;
}

interface Sides {
  readonly swallower: (at: number) => Swallower;
  readonly body: (at: number) => Prey;
}

/** The sides of a scenario, each made when it is first asked for. */
function sidesOf(stock: Stock, lastDay: number, options: GapeOptions): Sides {
  const swallowers: (Swallower | undefined)[] = [];
  const bodies: (Prey | undefined)[] = [];
  const animalAt = (at: number): StockAnimal => stock.animals[at] as StockAnimal;
  return {
    swallower: (at: number): Swallower => (swallowers[at] ??= swallowerOf(sideOf(animalAt(at)), lastDay, options)),
    body: (at: number): Prey => (bodies[at] ??= preyOf(sideOf(animalAt(at)), arrivalOf(stock, animalAt(at)))),
  };
}
