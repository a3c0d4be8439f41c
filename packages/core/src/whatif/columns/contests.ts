import { effectiveLength } from '../../biology/effective-length.js';
import { asksForSize } from '../../rules/attack.js';
import { type ContestOptions, daysSettled } from '../../rules/odds.js';
import { isKinship, treatmentOf } from '../../rules/relation.js';
import { strengthGaps } from '../../rules/strength.js';
import type { StockAnimal } from '../../stock/stock.js';
import { CLOSE, LEFT } from './kernel.js';
import { isBuildFixed, logAtLeast, logAtMost, type Places } from './places.js';

/** What two do to each other as long as neither, the other or the one is much smaller. */
export interface Standing {
  /** What the one does to the other, 0 to 4, and the most it may do; below 0 where it is not known. */
  readonly step: number;
  readonly most: number;
  /** What the other does in its turn as far as that is known, and the most it may do. */
  readonly answer: number;
  readonly answerAtMost: number;
  /** The one looks out for such as the other, beyond its territory. */
  readonly isKin: boolean;
  /** What residence and temper add to the logarithm of the ratio of strengths, and the least and the most where tempers are not known; NaN and without end where strengths are not. */
  readonly shift: number;
  readonly shiftAtLeast: number;
  readonly shiftAtMost: number;
}

/** Two animals, or one line with itself, on a day. */
export interface Meeting {
  /** Places of the two. */
  readonly one: number;
  readonly other: number;
  /** Both strengths are known, or the two are one line. */
  readonly isMeasured: boolean;
  /** Whether it matters who is much smaller, and can be told. */
  readonly asks: boolean;
  /** By who is much smaller: neither, the other, the one. */
  readonly standings: readonly [Standing, Standing, Standing];
}

/** Contests in columns, as `odds` and `attack` have them. */
export interface Contests {
  readonly places: Places;
  /** How much longer, in logarithms, the one is of which the other is much smaller. */
  readonly muchLonger: number;
  /** The least and the greatest logarithm of a ratio that is asked about: a number that is handed over would become an object. */
  readonly ratios: Float64Array;
  /** Undefined where something hangs on what kernels do not read. */
  readonly meetingOf: (one: number, other: number, day: number, isOtherNew: boolean, isOneNew: boolean) => Meeting | undefined;
}

export function contestsOn(places: Places, { stepWorth, smallerShare }: ContestOptions): Contests | undefined {
  const { columns, placeOf, startOf, endOf } = places;
  const { stock, isFixed } = columns;
  // From equal lengths up, each of two would be much smaller than the other.
  const muchLonger = -Math.log(smallerShare);
  if (!(muchLonger > CLOSE) || !(stepWorth >= 0)) return undefined;
  const worth = (animal: StockAnimal, day: number, step: number): number =>
    Math.log(effectiveLength(1, daysSettled(stock, animal, day), 1 + stepWorth * step));

  const isServed = ({ kind }: StockAnimal): boolean =>
    (kind.pugnacity === undefined || isFixed(kind.pugnacity)) && isBuildFixed(columns, kind);

  const meetingOf: Contests['meetingOf'] = (one, other, day, isOtherNew, isOneNew) => {
    const [actor, target] = [stock.animals[one] as StockAnimal, stock.animals[other] as StockAnimal];
    if (![actor, target].every(isServed)) return undefined;
    const isMeasured = one === other || (strengthGaps(actor, day).length === 0 && strengthGaps(target, day).length === 0);
    const [oneAsks, otherAsks] = [asksForSize(actor, target), asksForSize(target, actor)];
    const shiftAt = (step: number, answer: number): number => (one === other ? 0 : worth(actor, day, step) - worth(target, day, answer));
    const standing = (isOtherSmaller: boolean | undefined, isOneSmaller: boolean | undefined): Standing => {
      const treatment = treatmentOf(actor, target, { smaller: oneAsks ? isOtherSmaller : false, newcomer: isOtherNew });
      const answer = treatmentOf(target, actor, { smaller: otherAsks ? isOneSmaller : false, newcomer: isOneNew });
      const shift = isMeasured ? shiftAt(treatment.step ?? treatment.atMost, answer.step ?? 0) : Number.NaN;
      const isKnown = treatment.step === treatment.atMost && answer.step === answer.atMost;
      return {
        step: treatment.step ?? -1,
        most: treatment.atMost,
        answer: answer.step ?? 0,
        answerAtMost: answer.atMost,
        isKin: isKinship(treatment.toward),
        shift,
        shiftAtLeast: !isMeasured ? Number.NEGATIVE_INFINITY : isKnown ? shift : shiftAt(treatment.step ?? 0, answer.atMost),
        shiftAtMost: !isMeasured ? Number.POSITIVE_INFINITY : isKnown ? shift : shiftAt(treatment.atMost, answer.step ?? 0),
      };
    };
    const unmeasured = standing(undefined, undefined);
    for (const at of [one, other]) {
      startOf(at);
      endOf(at, day);
    }
    return {
      one: placeOf(one, day),
      other: placeOf(other, day),
      isMeasured,
      asks: isMeasured && (oneAsks || otherAsks),
      standings: isMeasured ? [standing(false, false), standing(true, false), standing(false, true)] : [unmeasured, unmeasured, unmeasured],
    };
  };
  return { places, muchLonger, ratios: new Float64Array(2), meetingOf };
}

/** Logarithm of the ratio of weight-equivalent lengths of two that meet; 0 where it is not known. */
export const logRatioIn = ({ places: { logs } }: Contests, { one, other, isMeasured }: Meeting): number =>
  one === other || !isMeasured ? 0 : (logs[one] as number) - (logs[other] as number);

/** Notes it, and a little more either way. */
export function noteRatio(contests: Contests, meeting: Meeting): void {
  const logRatio = logRatioIn(contests, meeting);
  contests.ratios[0] = logRatio - CLOSE;
  contests.ratios[1] = logRatio + CLOSE;
}

/** Notes what it can be by bounds, where it is known. */
export function noteBounds({ places, ratios }: Contests, { one, other }: Meeting): void {
  ratios[0] = logAtLeast(places, one) - logAtMost(places, other) - CLOSE;
  ratios[1] = logAtMost(places, one) - logAtLeast(places, other) + CLOSE;
}

/** Who is much smaller at such a ratio, as a place among standings; LEFT where it is close. */
export const standingAt = (contests: Contests, meeting: Meeting, logRatio: number): number =>
  standingBetween(contests, meeting, logRatio - CLOSE, logRatio + CLOSE);

/** The same of any ratio between two; LEFT where they do not tell. */
export function standingBetween({ muchLonger }: Contests, { asks }: Meeting, least: number, most: number): number {
  if (!asks) return 0;
  if (least > muchLonger) return 1;
  if (most < -muchLonger) return 2;
  return most < muchLonger && least > -muchLonger ? 0 : LEFT;
}

/** The best odds that the one may have in some meetings, or the worst, meeting by meeting: most are told by these alone. */
export interface OddsBound {
  /** Places at which the one is strongest and the other weakest, or the other way round, and the most or the least that residence and temper add. */
  readonly ones: Int32Array;
  readonly others: Int32Array;
  readonly shifts: Float64Array;
}

export function bestOddsOf({ places: { strongestOn, weakestOn, needStrength } }: Contests, meetings: readonly Meeting[]): OddsBound {
  for (const { one, other } of meetings) {
    needStrength(one);
    needStrength(other);
  }
  return {
    ones: Int32Array.from(meetings, ({ one, other }) => (one === other ? one : strongestOn(one))),
    others: Int32Array.from(meetings, ({ one, other }) => (one === other ? one : weakestOn(other))),
    shifts: Float64Array.from(meetings, ({ standings }) => Math.max(...standings.map(({ shiftAtMost }) => shiftAtMost))),
  };
}

export function worstOddsOf(
  { places: { strongestOn, weakestOn } }: Contests,
  meetings: readonly Meeting[],
  shifts: readonly number[],
): OddsBound {
  return {
    ones: Int32Array.from(meetings, ({ one, other }) => (one === other ? one : weakestOn(one))),
    others: Int32Array.from(meetings, ({ one, other }) => (one === other ? one : strongestOn(other))),
    shifts: Float64Array.from(shifts),
  };
}

export const oddsIn = ({ logs }: Places, { ones, others, shifts }: OddsBound, index: number): number =>
  (logs[ones[index] as number] as number) - (logs[others[index] as number] as number) + (shifts[index] as number);
