import { lengthAfter } from '../../biology/length-after.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import { together } from '../../quantity/log-errors.js';
import { dayBook } from '../day-book.js';
import type { StockAnimal } from '../../stock/stock.js';

/** The length of an animal on a day, and how far it may be out, all in natural logarithms. */
export interface LogLength {
  readonly log: number;
  /** Error of start, asymptotic length and rate together, to the longer and to the shorter side. */
  readonly up: number;
  readonly down: number;
  /** Error of the start alone: two of one species share their growth curve. */
  readonly startUp: number;
  readonly startDown: number;
  /** All three at their ends at once: no day's error reaches beyond. */
  readonly longest: number;
  readonly shortest: number;
}

/** Lengths by animal and day, each worked out once. */
export type LengthBook = (animal: StockAnimal, day: number) => LogLength;

/** A book for one run of the rule. */
export const lengthBook = (): LengthBook => dayBook(logLengthOf);

/** Years of growth behind an animal on a day; a length taken later than that day counts as it is. */
export const yearsSince = (animal: StockAnimal, day: number): number => Math.max(0, (day - animal.lengthDay) / DAYS_PER_YEAR);

/** Whether nobody has said how long it will be, so that it counts as what is usually sold; a keeper's reading is measured. */
export const isEntryLengthGuessed = ({ role, lengthCm }: StockAnimal): boolean => role === 'newcomer' && lengthCm?.basis !== 'measured';

const NO_LENGTH: LogLength = { log: Number.NaN, up: 0, down: 0, startUp: 0, startDown: 0, longest: Number.NaN, shortest: Number.NaN };

/**
 * Start, asymptotic length and rate are each moved alone to their ends and taken together as independent errors. Near the
 * asymptote their effects overlap, so that the sum can pass what all three at once would come to: it stops there, and no
 * animal is ever thought shorter than it was at the start.
 */
function logLengthOf(animal: StockAnimal, day: number): LogLength {
  const { lengthCm: start } = animal;
  const { asymptoticCm: asymptote, ratePerYear: rate } = animal.kind;
  if (start === undefined || asymptote === undefined || rate === undefined) return NO_LENGTH;
  const years = yearsSince(animal, day);
  const at = (startCm: number, asymptoteCm: number, ratePerYear: number): number =>
    Math.log(lengthAfter(startCm, asymptoteCm, ratePerYear, years));
  const log = at(start.centre, asymptote.centre, rate.centre);
  const errorTo = (end: 'low' | 'high'): { start: number; all: number; extreme: number } => {
    const ofStart = start[end] === start.centre ? 0 : Math.abs(at(start[end], asymptote.centre, rate.centre) - log);
    if (years === 0) return { start: ofStart, all: ofStart, extreme: Math.log(start[end]) };
    const extreme = at(start[end], asymptote[end], rate[end]);
    const apart = together(
      ofStart,
      at(start.centre, asymptote[end], rate.centre) - log,
      at(start.centre, asymptote.centre, rate[end]) - log,
    );
    return { start: ofStart, all: Math.min(apart, Math.abs(extreme - log)), extreme };
  };
  const up = errorTo('high');
  const down = errorTo('low');
  return { log, up: up.all, down: down.all, startUp: up.start, startDown: down.start, longest: up.extreme, shortest: down.extreme };
}
