import { chanceOfWinning } from '../biology/chance-of-winning.js';
import { effectiveLength } from '../biology/effective-length.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import type { RuleDefault } from './rule.js';
import type { StrengthBook } from './strength.js';

/** Thresholds of every rule on contests, by name. */
export type ContestOption = 'evenFrom' | 'stepWorth' | 'smallerShare';

export const contestDefaults: Readonly<Record<ContestOption, RuleDefault>> = {
  evenFrom: {
    value: 0.35,
    unit: '1',
    basis: 'choice',
    note: 'Chance of winning from which a contest is even; below, the other fends it off.',
  },
  stepWorth: { value: 0.05, unit: '1', basis: 'choice', note: 'Share of length that each step of pugnacity is worth in a contest.' },
  smallerShare: {
    value: 2 / 3,
    unit: '1',
    basis: 'choice',
    note: 'Weight-equivalent length over its own under which another fish counts as smaller.',
  },
};

/** Published contests that the chance of winning and the worth of length and residence are chosen after, and weights by build. */
export const CONTEST_SOURCES: readonly string[] = [
  'wazlavek-figler-1989',
  'poulos-mccormick-2014',
  'mccormick-weaver-2012',
  'buston-cant-2006',
  'froese-2014',
];

export type ContestOptions = Readonly<Record<ContestOption, number>>;

/**
 * The chance that one animal beats another. How steeply it turns with the lengths already stands for the scatter of real contests, so that
 * the errors of the lengths do not widen it; what is not known does.
 */
export interface Odds {
  /** NaN where it is not known. */
  readonly centre: number;
  readonly low: number;
  readonly high: number;
}

/** What each brings to a contest besides its body: what it does to the other, or may do. */
export interface Temper {
  readonly step: number | undefined;
  readonly atMost: number;
}

/** The chance that one animal beats another on a day. A line beside itself stands for two alike. */
export function oddsOf(
  stock: Stock,
  day: number,
  [one, ofOne]: readonly [StockAnimal, Temper],
  [other, ofOther]: readonly [StockAnimal, Temper],
  strengths: StrengthBook,
  options: ContestOptions,
): Odds {
  if (one === other) return EVEN;
  const own = settledStrength(stock, one, day, strengths);
  const theirs = settledStrength(stock, other, day, strengths);
  if (Number.isNaN(own) || Number.isNaN(theirs)) return { centre: Number.NaN, low: 0, high: 1 };
  const { stepWorth } = options;
  const centre = centralChance(own, ofOne, theirs, ofOther, options);
  const isKnown = ofOne.step === ofOne.atMost && ofOther.step === ofOther.atMost;
  if (isKnown) return { centre, low: centre, high: centre };
  return {
    centre,
    low: chanceOf(own, ofOne.step ?? 0, theirs, ofOther.atMost, stepWorth),
    high: chanceOf(own, ofOne.atMost, theirs, ofOther.step ?? 0, stepWorth),
  };
}

/** Two alike. */
const EVEN: Odds = { centre: 0.5, low: 0.5, high: 0.5 };

/** What an animal brings into all its contests on a day: its strength, and what having settled is worth. */
export const settledStrength = (stock: Stock, animal: StockAnimal, day: number, strengths: StrengthBook): number =>
  effectiveLength(strengths(animal, day), daysSettled(stock, animal, day));

/** The chance of what two bring, at given steps of pugnacity. */
const chanceOf = (own: number, step: number, theirs: number, theirStep: number, stepWorth: number): number =>
  chanceOfWinning(own * (1 + stepWorth * step), theirs * (1 + stepWorth * theirStep));

/** The chance at the steps that are known best. */
export const centralChance = (own: number, ofOne: Temper, theirs: number, ofOther: Temper, { stepWorth }: ContestOptions): number =>
  chanceOf(own, ofOne.step ?? ofOne.atMost, theirs, ofOther.step ?? 0, stepWorth);

/** Days since an animal settled, or since the rock was last re-laid; without a day of entry it has been there for long. */
export function daysSettled(stock: Stock, animal: StockAnimal, day: number): number {
  let since = animal.entryDay ?? Number.NEGATIVE_INFINITY;
  for (const relaid of stock.rockRelaidOn) if (relaid <= day && relaid > since) since = relaid;
  return Math.max(0, day - since);
}

/** Whether another animal is much smaller; undefined where that is not known. */
export function isMuchSmaller(
  one: StockAnimal,
  other: StockAnimal,
  day: number,
  strengths: StrengthBook,
  { smallerShare }: ContestOptions,
): boolean | undefined {
  const share = strengths(other, day) / strengths(one, day);
  return Number.isNaN(share) ? undefined : share < smallerShare;
}

/** Animals contest with their own sort: fishes with fishes, shrimps, crabs and hermit crabs with each other. */
export function sameSort(one: StockAnimal, other: StockAnimal): boolean {
  return sortOf(one) === sortOf(other);
}

const sortOf = ({ kind: { form } }: StockAnimal): string => (form === 'crab' || form === 'hermit-crab' ? 'shrimp' : form);

/** Nobody holds an old territory when an animal comes in: the rock is re-laid that day, or a divider stands. */
export function isSettledAnew(stock: Stock, day: number): boolean {
  return stock.rockRelaidOn.includes(day) || stock.divided.some((span) => span.from <= day && day <= span.until);
}
