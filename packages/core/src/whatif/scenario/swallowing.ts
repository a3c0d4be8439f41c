import { crossedBy, crossingOf } from '../../biology/first-crossing.js';
import { lengthAfter } from '../../biology/length-after.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import { logDown, logUp } from '../../quantity/log-errors.js';
import type { Band } from '../../quantity/band.js';
import { canBePrey, easyRatioOf, fitsFullGrown, gapeLevel, judgeGape, lastDayOf, measurePair } from '../../rules/gape/gape.js';
import { interestIn } from '../../rules/gape/interest.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import {
  depthOffered,
  fullCmOf,
  limitOf,
  type Prey,
  preyOf,
  ROUNDING,
  sideOf,
  type Swallower,
  swallowerOf,
} from '../../rules/gape/sides.js';
import { LEVELS } from '../../rules/levels.js';
import { meetingOf } from '../../rules/meeting.js';
import { arePartners } from '../../rules/partners.js';
import { arrivalOf } from '../../rules/presence.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { type Asking, OUTCOMES } from './outputs.js';
import type { Part } from './parts.js';
import { rankOf, writeOutcome } from './tally.js';

const PASSED = rankOf(OUTCOMES.indexOf('passed'), 0);
const failed = (level: number): number => rankOf(OUTCOMES.indexOf('failed'), level);
const cantTell = (level: number): number => rankOf(OUTCOMES.indexOf('cantTell'), level);

/** A little more than one and a little less: what lies between is left to the rule itself. */
const OVER = 1 + ROUNDING;
const UNDER = 1 - ROUNDING;

/** What does not vary of an ordered pair. */
interface Pair {
  /** Places among the animals. */
  readonly predator: number;
  readonly prey: number;
  readonly from: number;
  readonly until: number;
  readonly years: number;
  /** Both stay beyond the last day. */
  readonly stays: boolean;
  /** Something that the numbers need is not on record. */
  readonly isGap: boolean;
  /** Ranks of a failure up to the horizon, ordinary and easy; of one at full size; of a doubt. */
  readonly fails: number;
  readonly failsEasily: number;
  readonly failsLater: number;
  readonly failsLaterEasily: number;
  readonly mayFail: number;
  /** Places of what is asked that a finding on the pair counts for. */
  readonly outcomes: readonly number[];
  readonly days: readonly number[];
}

/**
 * The rule `gape` over many scenarios of one stock: what it comes to and when it first fails, as the rule says itself, without an object a pair.
 *
 * Who could swallow whom, from when on and at which level, is laid out once; of the animals, numbers are read in each scenario. Pairs are gone through from the
 * gravest down, so that what cannot change the answer is not worked out; doubts come last, as every failure is graver. Where a bound of a few products
 * settles nothing, and where lengths have errors, a doubt is put to the rule's own functions.
 */
export function swallowingPart(laidOut: Stock, options: GapeOptions, askings: readonly Asking[]): Part {
  const { animals } = laidOut;
  const lastDay = lastDayOf(laidOut);
  const pairs = pairsIn(laidOut, askings).sort((one, other) => other.failsEasily - one.failsEasily || other.mayFail - one.mayFail);
  const used = [...new Set(pairs.flatMap(({ predator, prey }) => [predator, prey]))];
  const column = (): Float64Array => new Float64Array(animals.length);
  const [start, end, rate, full, limitPer, capRatio, capAtWorst, depth, deepest, longest, shallowest, shortest] = [
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
  ] as const;
  const squareFactor = column();
  const isExact = new Uint8Array(animals.length);
  const depthIsExact = new Uint8Array(animals.length);
  const squeeze = Math.log(options.squeeze);

  const load = (animal: StockAnimal, at: number): void => {
    const { kind, lengthCm } = animal;
    const { asymptoticCm, ratePerYear, totalPerStandard } = kind;
    const limit = limitOf(kind, options);
    const offered = depthOffered(kind).perTotal;
    if (lengthCm === undefined || asymptoticCm === undefined || ratePerYear === undefined) return;
    start[at] = lengthCm.centre;
    end[at] = Math.max(asymptoticCm.centre, lengthCm.centre);
    rate[at] = ratePerYear.centre;
    full[at] = fullCmOf(animal);
    isExact[at] = isOne(lengthCm) && isOne(asymptoticCm) && isOne(ratePerYear) ? 1 : 0;
    const isDistensible = kind.gapeClass === 'distensible';
    if (limit !== undefined && totalPerStandard !== undefined) {
      const standard = totalPerStandard.centre;
      limitPer[at] = limit.centre / standard;
      capRatio[at] = standard / (isDistensible ? options.distensibleLongestShare : options.longestShare);
      capAtWorst[at] = standard / (isDistensible ? options.distensibleLongestShareAtMost : options.longestShareAtMost);
      // Errors are laid on in turn: no less than the root of their squares.
      squareFactor[at] = (isDistensible ? 1 : options.squeeze) * (limit.high / limit.centre) * (standard / totalPerStandard.low);
      const top = Math.max(lengthCm.high, asymptoticCm.high, ((full[at] as number) * asymptoticCm.high) / asymptoticCm.centre);
      deepest[at] = top * (limitPer[at] as number) * (squareFactor[at] as number) * OVER;
      longest[at] = (top / Math.min(capRatio[at] as number, capAtWorst[at] as number)) * OVER;
    }
    if (offered === undefined) return;
    depth[at] = offered.centre;
    depthIsExact[at] = isOne(offered) ? 1 : 0;
    const least = Math.min(lengthCm.low, ((full[at] as number) * asymptoticCm.low) / asymptoticCm.centre);
    shallowest[at] = least * offered.low;
    shortest[at] = least;
  };

  /** The square of the error of a mouth, in logarithms. */
  const mouthSquares = ({ kind }: StockAnimal): number => {
    const limit = limitOf(kind, options);
    const ofLimit = limit === undefined ? 0 : logUp(limit);
    const ofSqueeze = kind.gapeClass === 'distensible' ? 0 : squeeze;
    const ofStandard = kind.totalPerStandard === undefined ? 0 : logDown(kind.totalPerStandard);
    return ofLimit * ofLimit + ofSqueeze * ofSqueeze + ofStandard * ofStandard;
  };

  const ranks = new Int32Array(askings.length);
  const firsts = new Float64Array(askings.length);
  const least = new Int32Array(askings.length);
  for (const { isGap, mayFail, outcomes } of pairs) {
    for (let at = 0; at < askings.length; at += 1) least[at] = Math.max(least[at] as number, PASSED);
    if (isGap) for (const at of outcomes) least[at] = Math.max(least[at] as number, mayFail);
  }
  const known = pairs.filter(({ isGap, outcomes, days }) => !isGap && outcomes.length + days.length > 0);
  const doubtful: Pair[] = [];

  const raises = ({ outcomes }: Pair, rank: number): boolean => {
    for (let at = 0; at < outcomes.length; at += 1) if ((ranks[outcomes[at] as number] as number) < rank) return true;
    return false;
  };
  const raise = ({ outcomes }: Pair, rank: number): void => {
    for (let at = 0; at < outcomes.length; at += 1) {
      const to = outcomes[at] as number;
      if ((ranks[to] as number) < rank) ranks[to] = rank;
    }
  };
  /** Whether a failure from this day on at this rank would be the first of what is asked. */
  const isSooner = ({ days }: Pair, rank: number, day: number): boolean => {
    for (let at = 0; at < days.length; at += 1) {
      const to = days[at] as number;
      if (day < (firsts[to] as number) && rank >= failed((askings[to] as Asking).from)) return true;
    }
    return false;
  };

  return (stock, into, at) => {
    for (let line = 0; line < used.length; line += 1) load(stock.animals[used[line] as number] as StockAnimal, used[line] as number);
    ranks.set(least);
    firsts.fill(Number.POSITIVE_INFINITY);
    let doubts = 0;
    for (let index = 0; index < known.length; index += 1) {
      const pair = known[index] as Pair;
      const { predator: i, prey: j, from, years } = pair;
      if (!raises(pair, pair.failsEasily) && !isSooner(pair, pair.failsEasily, from - stock.day)) continue;
      if ((deepest[i] as number) < (shallowest[j] as number) || (longest[i] as number) < (shortest[j] as number)) continue;
      const [one, other] = [stock.animals[i] as StockAnimal, stock.animals[j] as StockAnimal];
      const startCm = grownTo(one, start[i] as number, rate[i] as number, from);
      const preyCm = grownTo(other, start[j] as number, rate[j] as number, from);
      const mouthRatio = (depth[j] as number) / (limitPer[i] as number);
      const ratio = Math.max(mouthRatio, capRatio[i] as number);
      const [aEnd, aRate, bEnd, bRate] = [end[i] as number, rate[i] as number, end[j] as number, rate[j] as number];
      const crossed = crossedBy(startCm, aEnd, aRate, preyCm, bEnd, bRate, ratio, years);
      if (crossed < Number.POSITIVE_INFINITY) {
        let rank = pair.fails;
        if (pair.failsEasily > rank && (raises(pair, pair.failsEasily) || pair.days.length > 0)) {
          const easyRatio = easyRatioOf(mouthRatio, ratio, options);
          if (crossedBy(startCm, aEnd, aRate, preyCm, bEnd, bRate, easyRatio, years) < Number.POSITIVE_INFINITY) rank = pair.failsEasily;
        }
        raise(pair, rank);
        if (!isSooner(pair, rank, from - stock.day)) continue;
        const crossing = crossingOf(startCm, aEnd, aRate, preyCm, bEnd, bRate, ratio, years);
        const days = from - stock.day + Math.floor(crossing * DAYS_PER_YEAR);
        for (const to of pair.days) if (rank >= failed((askings[to] as Asking).from)) firsts[to] = Math.min(firsts[to] as number, days);
        continue;
      }
      if (pair.outcomes.length === 0) continue;
      const fullCm = Math.max(full[i] as number, startCm);
      const preyFullCm = Math.max(full[j] as number, preyCm);
      const beyond = years + options.lookBeyondYears;
      if (pair.stays && fitsFullGrown(startCm, fullCm, aRate, preyCm, bEnd, bRate, preyFullCm, ratio, beyond)) {
        const isEasy = fullCm >= easyRatioOf(mouthRatio, ratio, options) * preyFullCm;
        raise(pair, isEasy ? pair.failsLaterEasily : pair.failsLater);
      } else {
        doubtful[doubts] = pair;
        doubts += 1;
      }
    }
    const sides = doubts === 0 ? undefined : sidesOf(stock, lastDay, options);
    for (let index = 0; index < doubts && sides !== undefined; index += 1) {
      const pair = doubtful[index] as Pair;
      if (!raises(pair, pair.mayFail)) continue;
      const { predator: i, prey: j, from, until, years } = pair;
      if (isExact[i] === 1 && isExact[j] === 1) {
        // Without errors of lengths a doubt is a crossing too, at the least ratio that the mouth may have.
        const [one, other] = [stock.animals[i] as StockAnimal, stock.animals[j] as StockAnimal];
        const startCm = grownTo(one, start[i] as number, rate[i] as number, from);
        const preyCm = grownTo(other, start[j] as number, rate[j] as number, from);
        const offered = depthOffered(other.kind).perTotal as Band;
        const ofDepth = depthIsExact[j] === 1 ? 0 : logDown(offered);
        const error = Math.exp(Math.sqrt(mouthSquares(one) + ofDepth * ofDepth));
        const ratio = Math.max((depth[j] as number) / (limitPer[i] as number) / error, capAtWorst[i] as number);
        const [aEnd, aRate, bEnd, bRate] = [end[i] as number, rate[i] as number, end[j] as number, rate[j] as number];
        const soonest = crossedBy(startCm, aEnd, aRate, preyCm, bEnd, bRate, ratio * UNDER, years);
        const mayFitLater = pair.stays && Math.max(full[i] as number, startCm) >= ratio * UNDER * Math.max(full[j] as number, preyCm);
        if (soonest === Number.POSITIVE_INFINITY && !mayFitLater) continue;
      }
      const verdict = judgeGape(measurePair(stock, sides.swallower(i), sides.body(j), from, until, options));
      raise(pair, rankOf(OUTCOMES.indexOf(verdict.outcome), LEVELS.indexOf(verdict.level)));
    }
    for (let index = 0; index < askings.length; index += 1) {
      const { what, column: to } = askings[index] as Asking;
      const first = firsts[index] as number;
      if (what === 'outcome') writeOutcome(ranks[index] as number, into, at + to);
      else into[at + to] = first === Number.POSITIVE_INFINITY ? Number.NaN : first;
    }
  };
}

const isOne = (band: Band): boolean => band.low === band.centre && band.high === band.centre;

/** The length on a day at the centre, as the rule works it out. */
function grownTo(animal: StockAnimal, startCm: number, rate: number, day: number): number {
  return lengthAfter(startCm, (animal.kind.asymptoticCm as Band).centre, rate, yearsSince(animal, day));
}

/** The sides of a scenario, each made when it is first asked for. */
function sidesOf(stock: Stock, lastDay: number, options: GapeOptions) {
  const swallowers: (Swallower | undefined)[] = [];
  const bodies: (Prey | undefined)[] = [];
  const animalAt = (at: number): StockAnimal => stock.animals[at] as StockAnimal;
  return {
    swallower: (at: number): Swallower => (swallowers[at] ??= swallowerOf(sideOf(animalAt(at)), lastDay, options)),
    body: (at: number): Prey => (bodies[at] ??= preyOf(sideOf(animalAt(at)), arrivalOf(stock, animalAt(at)))),
  };
}

/** The pairs that the rule judges. */
function pairsIn(stock: Stock, askings: readonly Asking[]): Pair[] {
  return stock.animals.flatMap((one, predator) =>
    one.kind.gapeClass === 'notGapeLimited'
      ? []
      : stock.animals.flatMap((other, prey): Pair[] => {
          if (one === other || !canBePrey(other) || arePartners(one.kind, other.kind)) return [];
          const together = meetingOf(stock, one, other);
          return together === undefined ? [] : [pairOf(stock, predator, prey, together.from, together.until, askings)];
        }),
  );
}

function pairOf(stock: Stock, predator: number, prey: number, from: number, until: number, askings: readonly Asking[]): Pair {
  const [one, other] = [stock.animals[predator] as StockAnimal, stock.animals[prey] as StockAnimal];
  const interest = interestIn(one.kind, other.kind);
  const spared = other.kind.record.feeding?.cleans?.value === true;
  const level = (easy: boolean, later: boolean): number => LEVELS.indexOf(gapeLevel(interest, easy, later, spared));
  const lastDay = Math.max(stock.horizonDay, until);
  const namesBoth = ({ subjects }: Asking): boolean => subjects.every((id) => id === one.id || id === other.id);
  const placesOf = (what: Asking['what']): number[] =>
    askings.flatMap((asking, at) => (asking.what === what && namesBoth(asking) ? [at] : []));
  return {
    predator,
    prey,
    from,
    until,
    years: (until - from) / DAYS_PER_YEAR,
    stays: one.leaveDay > lastDay && other.leaveDay > lastDay,
    isGap: hasGap(one, other),
    fails: failed(level(false, false)),
    failsEasily: failed(level(true, false)),
    failsLater: failed(level(false, true)),
    failsLaterEasily: failed(level(true, true)),
    mayFail: cantTell(level(false, false)),
    outcomes: placesOf('outcome'),
    days: placesOf('first-failure'),
  };
}

const isUnknown = ({ lengthCm, kind }: StockAnimal): boolean =>
  lengthCm === undefined || kind.asymptoticCm === undefined || kind.ratePerYear === undefined;

/** What is on record does not vary, only how much. */
function hasGap(one: StockAnimal, other: StockAnimal): boolean {
  const { gapeClass, swallow, totalPerStandard } = one.kind;
  const knowsMouth = gapeClass === 'distensible' || swallow !== undefined;
  const isMouthKnown = gapeClass !== undefined && knowsMouth && totalPerStandard !== undefined;
  return !isMouthKnown || depthOffered(other.kind).perTotal === undefined || isUnknown(one) || isUnknown(other);
}
