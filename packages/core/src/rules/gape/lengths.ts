import { lengthShortOf } from '../../biology/length-after.js';
import type { Band } from '../../quantity/band.js';
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
  /** Error of the asymptotic length alone, which grows with time, and the length at either end of the rate alone. */
  readonly asymptoteUp: number;
  readonly asymptoteDown: number;
  readonly fast: number;
  readonly slow: number;
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

const NO_LENGTH: LogLength = {
  log: Number.NaN,
  up: 0,
  down: 0,
  startUp: 0,
  startDown: 0,
  asymptoteUp: 0,
  asymptoteDown: 0,
  fast: Number.NaN,
  slow: Number.NaN,
  longest: Number.NaN,
  shortest: Number.NaN,
};

/**
 * Start, asymptotic length and rate are each moved alone to their ends and taken together as independent errors. Near the
 * asymptote their effects overlap, so that the sum can pass what all three at once would come to: it stops there, and no
 * animal is ever thought shorter than it was at the start.
 */
export function logLengthOf(animal: StockAnimal, day: number): LogLength {
  const { lengthCm: start } = animal;
  const { asymptoticCm: asymptote, ratePerYear: rate } = animal.kind;
  if (start === undefined || asymptote === undefined || rate === undefined) return NO_LENGTH;
  const years = yearsSince(animal, day);
  const left = Math.exp(-rate.centre * years);
  const log = Math.log(lengthShortOf(start.centre, asymptote.centre, left));
  const startUp = errorOfStart(start, start.high, asymptote, left, log);
  const startDown = errorOfStart(start, start.low, asymptote, left, log);
  if (years === 0) {
    return {
      log,
      up: startUp,
      down: startDown,
      startUp,
      startDown,
      asymptoteUp: 0,
      asymptoteDown: 0,
      fast: log,
      slow: log,
      longest: Math.log(start.high),
      shortest: Math.log(start.low),
    };
  }
  const leftAtHigh = Math.exp(-rate.high * years);
  const leftAtLow = Math.exp(-rate.low * years);
  const longest = Math.log(lengthShortOf(start.high, asymptote.high, leftAtHigh));
  const shortest = Math.log(lengthShortOf(start.low, asymptote.low, leftAtLow));
  const asymptoteUp = Math.log(lengthShortOf(start.centre, asymptote.high, left)) - log;
  const asymptoteDown = Math.log(lengthShortOf(start.centre, asymptote.low, left)) - log;
  const fast = Math.log(lengthShortOf(start.centre, asymptote.centre, leftAtHigh));
  const slow = Math.log(lengthShortOf(start.centre, asymptote.centre, leftAtLow));
  return {
    log,
    up: Math.min(together(startUp, asymptoteUp, fast - log), Math.abs(longest - log)),
    down: Math.min(together(startDown, asymptoteDown, slow - log), Math.abs(shortest - log)),
    startUp,
    startDown,
    asymptoteUp,
    asymptoteDown,
    fast,
    slow,
    longest,
    shortest,
  };
}

function errorOfStart(start: Band, end: number, asymptote: Band, left: number, log: number): number {
  return end === start.centre ? 0 : Math.abs(Math.log(lengthShortOf(end, asymptote.centre, left)) - log);
}
