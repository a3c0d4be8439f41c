import { DAYS_PER_YEAR } from '../../quantity/days.js';
import { gapeLevel } from '../../rules/gape/gape.js';
import { interestIn } from '../../rules/gape/interest.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import { canBePrey, depthOffered } from '../../rules/gape/sides.js';
import { LEVELS } from '../../rules/levels.js';
import { meetingOf } from '../../rules/meeting.js';
import { arePartners } from '../../rules/partners.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { type Asking, OUTCOMES } from '../scenario/outputs.js';
import { rankOf } from '../scenario/tally.js';

/** What does not vary of an ordered pair. */
export interface SwallowingPair {
  /** Places among the animals. */
  readonly predator: number;
  readonly prey: number;
  readonly from: number;
  readonly until: number;
  readonly years: number;
  /** Years of growth behind each on the first day. */
  readonly predatorYears: number;
  readonly preyYears: number;
  /** The prey was measured by then. */
  readonly isPreyMeasured: boolean;
  /** The last day is the last that is looked at of all. */
  readonly isToTheEnd: boolean;
  /** Both stay beyond the last day. */
  readonly stays: boolean;
  /** Something that the numbers need is not on record. */
  readonly isGap: boolean;
  /** Ranks of a failure up to the horizon, ordinary and easy; of one at full size; of a doubt. */
  readonly fails: number;
  readonly failsEasily: number;
  readonly failsLater: number;
  readonly failsLaterEasily: number;
  readonly failsLaterAtMost: number;
  readonly mayFail: number;
  /** Places of what is asked that a finding on the pair counts for. */
  readonly outcomes: readonly number[];
  readonly days: readonly number[];
}

export const failureOf = (level: number): number => rankOf(OUTCOMES.indexOf('failed'), level);
const doubtOf = (level: number): number => rankOf(OUTCOMES.indexOf('cantTell'), level);

/** The pairs that `gape` judges, from the gravest down. */
export function swallowingPairs(stock: Stock, askings: readonly Asking[]): SwallowingPair[] {
  const pairs = stock.animals.flatMap((one, predator) =>
    one.kind.gapeClass === 'notGapeLimited'
      ? []
      : stock.animals.flatMap((other, prey): SwallowingPair[] => {
          if (one === other || !canBePrey(other) || arePartners(one.kind, other.kind)) return [];
          const together = meetingOf(stock, one, other);
          return together === undefined ? [] : [pairOf(stock, predator, prey, together.from, together.until, askings)];
        }),
  );
  return pairs.sort((one, other) => other.failsEasily - one.failsEasily || other.mayFail - one.mayFail);
}

function pairOf(stock: Stock, predator: number, prey: number, from: number, until: number, askings: readonly Asking[]): SwallowingPair {
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
    predatorYears: yearsSince(one, from),
    preyYears: yearsSince(other, from),
    isPreyMeasured: other.lengthDay <= from,
    isToTheEnd: until === stock.horizonDay,
    stays: one.leaveDay > lastDay && other.leaveDay > lastDay,
    isGap: hasGap(one, other),
    fails: failureOf(level(false, false)),
    failsEasily: failureOf(level(true, false)),
    failsLater: failureOf(level(false, true)),
    failsLaterEasily: failureOf(level(true, true)),
    failsLaterAtMost: failureOf(Math.max(level(false, true), level(true, true))),
    mayFail: doubtOf(level(false, false)),
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
