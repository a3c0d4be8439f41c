import { effectiveLength } from '../../biology/effective-length.js';
import { asksForSize } from '../../rules/attack.js';
import { type ContestOptions, daysSettled } from '../../rules/odds.js';
import { isKinship, treatmentOf } from '../../rules/relation.js';
import type { StockAnimal } from '../../stock/stock.js';
import { CLOSE, LEFT } from './kernel.js';
import { isStrengthServed, type Places } from './places.js';

/** What two do to each other as long as neither, the other or the one is much smaller. */
export interface Standing {
  /** What the one does to the other, and the other to the one, 0 to 4. */
  readonly step: number;
  readonly answer: number;
  /** The one looks out for such as the other, beyond its territory. */
  readonly isKin: boolean;
  /** What residence and temper add to the logarithm of the ratio of strengths. */
  readonly shift: number;
}

/** Two animals, or one line with itself, on a day. */
export interface Meeting {
  /** Places of the two. */
  readonly one: number;
  readonly other: number;
  /** Places of the two as they were measured and at the horizon: on every day between, their lengths lie between. */
  readonly oneStart: number;
  readonly oneEnd: number;
  readonly otherStart: number;
  readonly otherEnd: number;
  /** Whether it matters who is much smaller. */
  readonly asks: boolean;
  /** By who is much smaller: neither, the other, the one. */
  readonly standings: readonly [Standing, Standing, Standing];
}

/** Contests in columns, as `odds` and `attack` have them. */
export interface Contests {
  readonly places: Places;
  /** How much longer, in logarithms, the one is of which the other is much smaller. */
  readonly muchLonger: number;
  /** Undefined where something is not known or hangs on what kernels do not read. */
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

  const meetingOf: Contests['meetingOf'] = (one, other, day, isOtherNew, isOneNew) => {
    const [actor, target] = [stock.animals[one] as StockAnimal, stock.animals[other] as StockAnimal];
    const isServed = [one, other].every((at) => {
      const { pugnacity } = (stock.animals[at] as StockAnimal).kind;
      return pugnacity !== undefined && isFixed(pugnacity) && isStrengthServed(columns, at, day);
    });
    if (!isServed) return undefined;
    const standing = (isOtherSmaller: boolean, isOneSmaller: boolean): Standing => {
      const treatment = treatmentOf(actor, target, { smaller: isOtherSmaller && asksForSize(actor, target), newcomer: isOtherNew });
      const answer = treatmentOf(target, actor, { smaller: isOneSmaller && asksForSize(target, actor), newcomer: isOneNew });
      return {
        step: treatment.atMost,
        answer: answer.atMost,
        isKin: isKinship(treatment.toward),
        shift: one === other ? 0 : worth(actor, day, treatment.atMost) - worth(target, day, answer.atMost),
      };
    };
    return {
      one: placeOf(one, day),
      other: placeOf(other, day),
      oneStart: startOf(one),
      oneEnd: endOf(one, day),
      otherStart: startOf(other),
      otherEnd: endOf(other, day),
      asks: asksForSize(actor, target) || asksForSize(target, actor),
      standings: [standing(false, false), standing(true, false), standing(false, true)],
    };
  };
  return { places, muchLonger, meetingOf };
}

/** Logarithm of the ratio of weight-equivalent lengths of two that meet. */
export const logRatioIn = ({ places: { logs } }: Contests, { one, other }: Meeting): number =>
  one === other ? 0 : (logs[one] as number) - (logs[other] as number);

/** The least and the greatest that it can be on any day up to the horizon. */
export const leastLogRatioIn = ({ places: { logs } }: Contests, { oneStart, otherEnd }: Meeting): number =>
  (logs[oneStart] as number) - (logs[otherEnd] as number);
export const mostLogRatioIn = ({ places: { logs } }: Contests, { oneEnd, otherStart }: Meeting): number =>
  (logs[oneEnd] as number) - (logs[otherStart] as number);

/** Who is much smaller at such a ratio, as a place among standings; LEFT where it is close. */
export function standingAt({ muchLonger }: Contests, { asks }: Meeting, logRatio: number): number {
  if (!asks || Math.abs(logRatio) < muchLonger - CLOSE) return 0;
  if (Math.abs(logRatio) < muchLonger + CLOSE) return LEFT;
  return logRatio > 0 ? 1 : 2;
}
