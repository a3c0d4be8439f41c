import { together } from '../../quantity/log-errors.js';
import type { LogLength } from './lengths.js';

/** Two animals over a span of days, looked at now and then for a doubt: may the one be long enough for the other? */
export interface Doubtful {
  readonly longer: (day: number) => LogLength;
  readonly shorter: (day: number) => LogLength;
  /** Two of one species share their growth curve: only the errors of their starts count. */
  readonly sharedCurve: boolean;
  /** Doubt from 0 up; greater with the difference of the lengths and with its error, all in logarithms. */
  readonly margin: (logLengths: number, error: number) => number;
}

/** The margin on a day. */
export function marginOn({ longer, shorter, sharedCurve, margin }: Doubtful, day: number): number {
  const one = longer(day);
  const other = shorter(day);
  const error = sharedCurve ? together(one.startUp, other.startDown) : together(one.up, other.down);
  return margin(one.log - other.log, error);
}

/**
 * The first look, from 0 to `last`, on whose day the margin is 0 or more; undefined where none is. Parts of the span in which that cannot be
 * are not looked at.
 */
export function firstLook(pair: Doubtful, last: number, dayOf: (look: number) => number): number | undefined {
  if (marginOn(pair, dayOf(0)) >= 0) return 0;
  return last === 0 ? undefined : firstLookIn(pair, 0, last, dayOf);
}

function firstLookIn(pair: Doubtful, before: number, last: number, dayOf: (look: number) => number): number | undefined {
  const until = dayOf(last);
  if (last - before === 1) return marginOn(pair, until) >= 0 ? last : undefined;
  if (mostBetween(pair, dayOf(before), until) < -ROUNDING) return undefined;
  const middle = (before + last) >> 1;
  return firstLookIn(pair, before, middle, dayOf) ?? firstLookIn(pair, middle, last, dayOf);
}

/** The rounding of a sum of a few logarithms, and much more. */
const ROUNDING = 1e-9;

/**
 * What no margin between two days passes. Lengths never fall; the error of the start only shrinks as both grow towards one asymptote, that
 * of the asymptote only grows; and the error of the rate is at most from the one day's length to that of fast growth on the other.
 */
function mostBetween({ longer, shorter, sharedCurve, margin }: Doubtful, from: number, until: number): number {
  const early = longer(from);
  const late = longer(until);
  const earlyOther = shorter(from);
  const lateOther = shorter(until);
  const error = sharedCurve
    ? together(early.startUp, earlyOther.startDown)
    : together(
        together(early.startUp, late.asymptoteUp, late.fast - early.log),
        together(earlyOther.startDown, lateOther.asymptoteDown, lateOther.log - earlyOther.slow),
      );
  return margin(late.log - earlyOther.log, error);
}
