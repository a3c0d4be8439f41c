import { firstCrossing, type Growing } from '../../biology/first-crossing.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import { together } from '../../quantity/log-errors.js';
import type { StockAnimal } from '../../stock/stock.js';
import { justUnder } from '../rounding.js';
import { lengthOn } from '../gape/index.js';
import type { LengthBook } from '../gape/lengths.js';

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
export function reachOf(actor: StockAnimal, victim: StockAnimal, share: number, from: number, until: number, lengths: LengthBook): Reach {
  const unknown = { firstDay: Infinity, possibleDay: from };
  if (actor.lengthCm === undefined) return { ...unknown, missing: ['length'], missingOf: 'actor' };
  if (victim.lengthCm === undefined) return { ...unknown, missing: ['length'], missingOf: 'victim' };
  const years = (until - from) / DAYS_PER_YEAR;
  const crossing = firstCrossing(growingFrom(actor, from), growingFrom(victim, from), justUnder(1 / share), years);
  const found = { missing: [], missingOf: 'actor' } as const;
  if (crossing === 0) return { ...found, firstDay: from, possibleDay: from };
  if (actor.kind.asymptoticCm === undefined) return { ...unknown, missing: ['growth.asymptoticLength'], missingOf: 'actor' };
  if (victim.kind.asymptoticCm === undefined) return { ...unknown, missing: ['growth.asymptoticLength'], missingOf: 'victim' };
  if (crossing <= years) return { ...found, firstDay: from + Math.floor(crossing * DAYS_PER_YEAR), possibleDay: from };
  return { ...found, firstDay: Infinity, possibleDay: firstDoubtfulDay(actor, victim, share, from, until, lengths) };
}

/** Without a curve an animal stays as it is. */
function growingFrom(animal: StockAnimal, day: number): Growing {
  const startCm = lengthOn(animal, day);
  return {
    startCm,
    asymptoticCm: Math.max(animal.kind.asymptoticCm?.centre ?? 0, startCm),
    ratePerYear: animal.kind.ratePerYear?.centre ?? 1,
  };
}

/** Days between the looks at a span for a doubt: lengths change over months. */
const LOOK_DAYS = 30;

function firstDoubtfulDay(
  actor: StockAnimal,
  victim: StockAnimal,
  share: number,
  from: number,
  until: number,
  lengths: LengthBook,
): number {
  const logShare = Math.log(share);
  if (logShare + lengths(actor, until).longest - lengths(victim, from).shortest < 0) return Infinity;
  for (let day = from; ; day = Math.min(until, day + LOOK_DAYS)) {
    const [ofActor, ofVictim] = [lengths(actor, day), lengths(victim, day)];
    if (logShare + ofActor.log - ofVictim.log + together(ofActor.up, ofVictim.down) >= 0) return day;
    if (day >= until) return Infinity;
  }
}
