import { firstCrossing, type Growing } from '../../biology/first-crossing.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import type { Band } from '../../quantity/band.js';
import type { StockAnimal } from '../../stock/stock.js';
import { justUnder } from '../rounding.js';
import { dayPage } from '../day-book.js';
import { lengthOn } from '../gape/index.js';
import { type Barrier, firstLook } from '../gape/first-look.js';
import { type LogLength, logLengthOf } from '../gape/lengths.js';

/** An animal and its length by day, each worked out once for all its pairs. */
export interface Side {
  readonly animal: StockAnimal;
  readonly lengthOn: (day: number) => LogLength;
  readonly growingFrom: (day: number) => Growing;
}

export const sideOf = (animal: StockAnimal): Side => ({
  animal,
  lengthOn: dayPage(logLengthOf, animal),
  growingFrom: dayPage(growingFrom, animal),
});

/** When the victim is short enough for the actor. */
export interface Reach {
  /** First day on which it is, at the centre, and on which it may be; Infinity when never. */
  readonly firstDay: number;
  readonly possibleDay: number;
  /** What is missing to tell, and of which of the two; then it may be from the start. */
  readonly missing: readonly string[];
  readonly missingOf: 'actor' | 'victim';
}

/**
 * The first day between two on which the victim is at most `share` times as long as the actor, both growing. With errors of
 * both lengths taken together, it may be so earlier.
 */
export function reachOf(one: Side, other: Side, share: number, from: number, until: number): Reach {
  const { animal: actor } = one;
  const { animal: victim } = other;
  if (actor.lengthCm === undefined) return unknown(from, 'length', 'actor');
  if (victim.lengthCm === undefined) return unknown(from, 'length', 'victim');
  const years = (until - from) / DAYS_PER_YEAR;
  const crossing = firstCrossing(one.growingFrom(from), other.growingFrom(from), justUnder(1 / share), years);
  if (crossing === 0) return { firstDay: from, possibleDay: from, missing: NOTHING, missingOf: 'actor' };
  if (actor.kind.asymptoticCm === undefined) return unknown(from, 'growth.asymptoticLength', 'actor');
  if (victim.kind.asymptoticCm === undefined) return unknown(from, 'growth.asymptoticLength', 'victim');
  const reaches = crossing <= years;
  return {
    firstDay: reaches ? from + Math.floor(crossing * DAYS_PER_YEAR) : Infinity,
    possibleDay: reaches ? from : firstDoubtfulDay(one, other, share, from, until),
    missing: NOTHING,
    missingOf: 'actor',
  };
}

const NOTHING: readonly string[] = [];

const unknown = (from: number, field: string, missingOf: Reach['missingOf']): Reach => ({
  firstDay: Infinity,
  possibleDay: from,
  missing: [field],
  missingOf,
});

/** Without a curve an animal stays as it is. */
function growingFrom(animal: StockAnimal, day: number): Growing {
  const startCm = lengthOn(animal, day);
  return {
    startCm,
    asymptoticCm: Math.max(animal.kind.asymptoticCm?.centre ?? 0, startCm),
    ratePerYear: animal.kind.ratePerYear?.centre ?? 1,
  };
}

/** Whether length and growth are exact. */
const isSure = ({ lengthCm, kind: { asymptoticCm, ratePerYear } }: StockAnimal): boolean =>
  isExact(lengthCm) && isExact(asymptoticCm) && isExact(ratePerYear);

const isExact = (band: Band | undefined): boolean => band !== undefined && band.low === band.centre && band.high === band.centre;

/** Days between the looks at a span for a doubt: lengths change over months. */
const LOOK_DAYS = 30;

function firstDoubtfulDay(actor: Side, victim: Side, share: number, from: number, until: number): number {
  // Where nothing may be off, what does not come to be at the centre does not come to be.
  if (isSure(actor.animal) && isSure(victim.animal)) return Infinity;
  const logShare = Math.log(share);
  if (logShare + actor.lengthOn(until).longest - victim.lengthOn(from).shortest < 0) return Infinity;
  // The mouth has no say here.
  const barrier: Barrier = { logMouthRatio: -Infinity, mouthError: 0, logLengthRatioAtWorst: -logShare, sharedCurve: false };
  const last = Math.ceil((until - from) / LOOK_DAYS);
  const dayOf = (look: number): number => Math.min(until, from + look * LOOK_DAYS);
  const look = firstLook(barrier, actor.lengthOn, victim.lengthOn, { last, dayOf });
  return look === undefined ? Infinity : dayOf(look);
}
