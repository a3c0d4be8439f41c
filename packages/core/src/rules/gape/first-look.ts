import { together } from '../../quantity/log-errors.js';
import type { LogLength } from './lengths.js';

/** What stands between two animals, in logarithms: the longer must be so many times as long as the shorter, by mouth and by length. */
export interface Barrier {
  /** -Infinity where the mouth has no say. */
  readonly logMouthRatio: number;
  readonly mouthError: number;
  readonly logLengthRatioAtWorst: number;
  /** Two of one species share their growth curve: only the errors of their starts count. */
  readonly sharedCurve: boolean;
}

/**
 * How far the point less favourable to the shorter lies beyond the danger line, in logarithms; danger from 0 up. The mouth and the length cap
 * are two conditions; danger needs both.
 */
export const worstMargin = (barrier: Barrier, logLengths: number, lengthsError: number): number =>
  Math.min(
    logLengths - barrier.logMouthRatio + together(barrier.mouthError, lengthsError),
    logLengths - barrier.logLengthRatioAtWorst + lengthsError,
  );

/** That margin on a day, by the lengths of both on it. */
export function marginAtWorst(barrier: Barrier, longer: LogLength, shorter: LogLength): number {
  const error = barrier.sharedCurve ? together(longer.startUp, shorter.startDown) : together(longer.up, shorter.down);
  return worstMargin(barrier, longer.log - shorter.log, error);
}

/** Lengths of one animal by day. */
export type LengthOn = (day: number) => LogLength;

/** Looks at a span: so many after the first, and the day of each. */
export interface Looks {
  readonly last: number;
  readonly dayOf: (look: number) => number;
}

/**
 * The first look on whose day the margin at worst is 0 or more; undefined where none is. Parts of the span in which that cannot be are not
 * looked at.
 */
export function firstLook(barrier: Barrier, longer: LengthOn, shorter: LengthOn, looks: Looks): number | undefined {
  const { last } = looks;
  const from = looks.dayOf(0);
  const longerFirst = longer(from);
  const shorterFirst = shorter(from);
  if (marginAtWorst(barrier, longerFirst, shorterFirst) >= 0) return 0;
  if (last === 0) return undefined;
  const until = looks.dayOf(last);
  return firstLookIn(barrier, longer, shorter, looks, 0, last, longerFirst, shorterFirst, longer(until), shorter(until));
}

/** Between two looks, the earlier of which is known to be safe; what both are on them is handed on, as finding it costs most. */
function firstLookIn(
  barrier: Barrier,
  longer: LengthOn,
  shorter: LengthOn,
  looks: Looks,
  first: number,
  last: number,
  longerFirst: LogLength,
  shorterFirst: LogLength,
  longerLast: LogLength,
  shorterLast: LogLength,
): number | undefined {
  if (last - first === 1) return marginAtWorst(barrier, longerLast, shorterLast) >= 0 ? last : undefined;
  if (mostBetween(barrier, longerFirst, shorterFirst, longerLast, shorterLast) < -ROUNDING) return undefined;
  const middle = (first + last) >> 1;
  const day = looks.dayOf(middle);
  const one = longer(day);
  const other = shorter(day);
  return (
    firstLookIn(barrier, longer, shorter, looks, first, middle, longerFirst, shorterFirst, one, other) ??
    firstLookIn(barrier, longer, shorter, looks, middle, last, one, other, longerLast, shorterLast)
  );
}

/** The rounding of a sum of a few logarithms, and much more. */
const ROUNDING = 1e-9;

/**
 * What no margin between two days passes. Lengths never fall; the error of the start only shrinks as both grow towards one asymptote, that
 * of the asymptote only grows; and the error of the rate is at most from the one day's length to that of fast growth on the other.
 */
function mostBetween(
  barrier: Barrier,
  longerFirst: LogLength,
  shorterFirst: LogLength,
  longerLast: LogLength,
  shorterLast: LogLength,
): number {
  const error = barrier.sharedCurve
    ? together(longerFirst.startUp, shorterFirst.startDown)
    : together(
        longerFirst.startUp,
        longerLast.asymptoteUp,
        longerLast.fast - longerFirst.log,
        shorterFirst.startDown,
        shorterLast.asymptoteDown,
        shorterLast.log - shorterFirst.slow,
      );
  return worstMargin(barrier, longerLast.log - shorterFirst.log, error);
}
