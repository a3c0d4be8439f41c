import { crossedBy, crossingOf } from '../../biology/first-crossing.js';
import { lengthAfter } from '../../biology/length-after.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import type { Band } from '../../quantity/band.js';
import { easyRatioOf, fitsFullGrown, gapeLevel, judgeGape, lastDayOf, measurePair } from '../../rules/gape/gape.js';
import { interestIn } from '../../rules/gape/interest.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import {
  canBePrey,
  depthOffered,
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
import type { Stock, StockAnimal, StockKind } from '../../stock/stock.js';
import { type Asking, OUTCOMES } from './outputs.js';
import type { Run } from './runs.js';
import { rankOf, writeOutcome } from './tally.js';
import { type Columns, isOne } from '../columns/columns.js';

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
export function swallowingRun(columns: Columns, options: GapeOptions, askings: readonly Asking[]): Run['run'] {
  const { stock: laidOut, ofAnimals: of } = columns;
  const { animals, day } = laidOut;
  const lastDay = lastDayOf(laidOut);
  const pairs = pairsIn(laidOut, askings).sort((one, other) => other.failsEasily - one.failsEasily || other.mayFail - one.mayFail);
  const [length, asymptote, rate, adult] = [of('length'), of('asymptote'), of('rate'), of('adult')];
  const [standard, swallow, rest, defended] = [of('standard'), of('swallow'), of('depth'), of('defended')];
  const column = (): Float64Array => new Float64Array(animals.length);
  /** Asymptotic length, where an animal is longer its own; full size. */
  const [end, full] = [column(), column()];
  const [limitPer, capRatio, capAtWorst, depth, depthLow] = [column(), column(), column(), column(), column()];
  const [deepest, longest, shallowest, shortest] = [column(), column(), column(), column()];
  const isDistensible = Uint8Array.from(animals, ({ kind }) => (kind.gapeClass === 'distensible' ? 1 : 0));
  const stretched = limitOf({ gapeClass: 'distensible' } as StockKind, options) as Band;
  const swallowers = [...new Set(pairs.filter(({ isGap }) => !isGap).map(({ predator }) => predator))];
  const bodies = [...new Set(pairs.filter(({ isGap }) => !isGap).map(({ prey }) => prey))];
  const lines = [...new Set([...swallowers, ...bodies])];

  /** What an animal is in all its pairs. */
  const loadLine = (at: number): void => {
    const start = length.centre[at] as number;
    const asymptotic = asymptote.centre[at] as number;
    end[at] = Math.max(asymptotic, start);
    // What has an asymptotic length has an adult length.
    full[at] = Math.max(asymptotic, adult.centre[at] as number, start);
  };
  const loadSwallower = (at: number): void => {
    const stretches = isDistensible[at] === 1;
    const [centre, high] = stretches ? [stretched.centre, stretched.high] : [swallow.centre[at] as number, swallow.high[at] as number];
    const perStandard = standard.centre[at] as number;
    limitPer[at] = centre / perStandard;
    capRatio[at] = perStandard / (stretches ? options.distensibleLongestShare : options.longestShare);
    capAtWorst[at] = perStandard / (stretches ? options.distensibleLongestShareAtMost : options.longestShareAtMost);
    // Errors are laid on in turn: no less than the root of their squares.
    const errors = (stretches ? 1 : options.squeeze) * (high / centre) * (perStandard / (standard.low[at] as number));
    const asymptoticHigh = asymptote.high[at] as number;
    const ofFull = ((full[at] as number) * asymptoticHigh) / (asymptote.centre[at] as number);
    const top = Math.max(length.high[at] as number, asymptoticHigh, ofFull);
    deepest[at] = top * (limitPer[at] as number) * errors * OVER;
    longest[at] = (top / Math.min(capRatio[at] as number, capAtWorst[at] as number)) * OVER;
  };
  const loadBody = (at: number): void => {
    const raised = defended.centre[at] as number;
    const isRaised = raised > (Number.isNaN(rest.centre[at] as number) ? 0 : (rest.centre[at] as number));
    const offered = isRaised ? defended : rest;
    depth[at] = offered.centre[at] as number;
    depthLow[at] = offered.low[at] as number;
    const ofFull = ((full[at] as number) * (asymptote.low[at] as number)) / (asymptote.centre[at] as number);
    const least = Math.min(length.low[at] as number, ofFull);
    shallowest[at] = least * (depthLow[at] as number);
    shortest[at] = least;
  };
  const isExact = (at: number): boolean => isOne(length, at) && isOne(asymptote, at) && isOne(rate, at);

  /** The length on a day at the centre, as the rule works it out. */
  const grownTo = (at: number, onDay: number): number =>
    lengthAfter(
      length.centre[at] as number,
      asymptote.centre[at] as number,
      rate.centre[at] as number,
      yearsSince(animals[at] as StockAnimal, onDay),
    );

  /** Upper bound of the factor by which the errors of mouth and body make a body fit that does not at the centre. */
  const fitFactor = (i: number, j: number): number => {
    const [centre, high] = isDistensible[i] === 1 ? [stretched.centre, stretched.high] : [swallow.centre[i], swallow.high[i]];
    const ofMouth = Math.log((high as number) / (centre as number));
    const ofSqueeze = isDistensible[i] === 1 ? 0 : squeeze;
    const ofStandard = Math.log((standard.centre[i] as number) / (standard.low[i] as number));
    const ofDepth = Math.log((depth[j] as number) / (depthLow[j] as number));
    return Math.exp(Math.sqrt(ofMouth * ofMouth + ofSqueeze * ofSqueeze + ofStandard * ofStandard + ofDepth * ofDepth)) * OVER;
  };
  const squeeze = Math.log(options.squeeze);

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

  return (_values, written, into, at) => {
    for (let line = 0; line < lines.length; line += 1) loadLine(lines[line] as number);
    for (let line = 0; line < swallowers.length; line += 1) loadSwallower(swallowers[line] as number);
    for (let line = 0; line < bodies.length; line += 1) loadBody(bodies[line] as number);
    ranks.set(least);
    firsts.fill(Number.POSITIVE_INFINITY);
    let doubts = 0;
    for (let index = 0; index < known.length; index += 1) {
      const pair = known[index] as Pair;
      const { predator: i, prey: j, from, years } = pair;
      if ((deepest[i] as number) < (shallowest[j] as number) || (longest[i] as number) < (shortest[j] as number)) continue;
      if (!raises(pair, pair.failsEasily) && !isSooner(pair, pair.failsEasily, from - day)) continue;
      const startCm = grownTo(i, from);
      const preyCm = grownTo(j, from);
      const mouthRatio = (depth[j] as number) / (limitPer[i] as number);
      const ratio = Math.max(mouthRatio, capRatio[i] as number);
      const [aEnd, aRate, bEnd, bRate] = [end[i] as number, rate.centre[i] as number, end[j] as number, rate.centre[j] as number];
      const crossed = crossedBy(startCm, aEnd, aRate, preyCm, bEnd, bRate, ratio, years);
      if (crossed < Number.POSITIVE_INFINITY) {
        let rank = pair.fails;
        if (pair.failsEasily > rank && (raises(pair, pair.failsEasily) || pair.days.length > 0)) {
          const easyRatio = easyRatioOf(mouthRatio, ratio, options);
          if (crossedBy(startCm, aEnd, aRate, preyCm, bEnd, bRate, easyRatio, years) < Number.POSITIVE_INFINITY) rank = pair.failsEasily;
        }
        raise(pair, rank);
        if (!isSooner(pair, rank, from - day)) continue;
        const crossing = crossingOf(startCm, aEnd, aRate, preyCm, bEnd, bRate, ratio, years);
        const days = from - day + Math.floor(crossing * DAYS_PER_YEAR);
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
    let sides: Sides | undefined;
    for (let index = 0; index < doubts; index += 1) {
      const pair = doubtful[index] as Pair;
      if (!raises(pair, pair.mayFail)) continue;
      const { predator: i, prey: j, from, until, years } = pair;
      if (isExact(i) && isExact(j)) {
        // Without errors of lengths a doubt is a crossing too, at the least ratio that mouth and length may have.
        const startCm = grownTo(i, from);
        const preyCm = grownTo(j, from);
        const mouthRatio = (depth[j] as number) / (limitPer[i] as number);
        const ratio = Math.max(mouthRatio / fitFactor(i, j), (capAtWorst[i] as number) * UNDER);
        const [aEnd, aRate, bEnd, bRate] = [end[i] as number, rate.centre[i] as number, end[j] as number, rate.centre[j] as number];
        const mayFit = crossedBy(startCm, aEnd, aRate, preyCm, bEnd, bRate, ratio, years) < Number.POSITIVE_INFINITY;
        const mayFitLater = pair.stays && Math.max(full[i] as number, startCm) >= ratio * Math.max(full[j] as number, preyCm);
        if (!mayFit && !mayFitLater) continue;
      }
      sides ??= sidesOf(written(), lastDay, options);
      const verdict = judgeGape(measurePair(laidOut, sides.swallower(i), sides.body(j), from, until, options));
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
