import { placeName } from '@commensal/schema';
import { figureOf, shown } from '../figures.js';
import type { RecordCheck } from '../suspicion.js';

/**
 * Asymptotic over greatest length. It is the mean of a population, not a cap, and often far below: Naso lituratus 0.44 (Morais & Bellwood 2018
 * against FishBase); 1.31 is the most in the sample, of Pterapogon kauderni.
 */
const LEAST = 0.4;
const MOST = 1.5;

/** `asymptotic-length`: the curve and the greatest length are not of one population, or not of one length type. */
export const asymptoticLength: RecordCheck = (_record, _context, lengths) => {
  const pointer = '/growth/asymptoticLength';
  const asymptotic = lengths.find((length) => length.pointer === pointer);
  const maximum = lengths.find((length) => length.pointer === '/size/maximum');
  if (asymptotic === undefined || maximum === undefined) return [];
  const share = asymptotic.cm.centre / maximum.cm.centre;
  if (share >= LEAST && share <= MOST) return [];
  return [
    {
      problem: {
        code: 'asymptotic-length',
        pointer,
        found: `growth.asymptoticLength is ${shown(asymptotic.cm.centre)} cm, size.maximum is ${shown(maximum.cm.centre)} cm`,
        allowed: `it must be from ${LEAST} to ${MOST} times the greatest length, here ${shown(LEAST * maximum.cm.centre)} to ${shown(MOST * maximum.cm.centre)} cm`,
        fix: 'Look at unit and length type of both, and take rate and asymptotic length from one study.',
      },
      reads: [maximum.pointer],
      // The rate was fitted together with it.
      doubts: [pointer, maximum.pointer, '/growth/rate'],
    },
  ];
};

/**
 * Growth performance, log10 K + 2 log10 Linf with cm and years, is much alike among relatives (Pauly & Munro 1984, from memory). In the sample
 * it lies between 1.76 (Centropyge loriculus) and 3.09 (Lactoria cornuta); the bounds leave half a step, a factor of three, on either side.
 */
const LEAST_PERFORMANCE = 1.3;
const MOST_PERFORMANCE = 3.6;

/** `growth-performance`: no fish of this length grows at this rate; mostly a rate a month or a day. */
export const growthPerformance: RecordCheck = (record, _context, lengths) => {
  const pointer = '/growth/rate';
  const rate = figureOf(record.growth?.rate, '/a')?.centre;
  const length =
    lengths.find((each) => each.pointer === '/growth/asymptoticLength') ?? lengths.find((each) => each.pointer === '/size/maximum');
  if (record.form !== 'fish' || rate === undefined || length === undefined) return [];
  const performance = Math.log10(rate) + 2 * Math.log10(length.cm.centre);
  if (performance >= LEAST_PERFORMANCE && performance <= MOST_PERFORMANCE) return [];
  const square = length.cm.centre * length.cm.centre;
  const bounds = [LEAST_PERFORMANCE, MOST_PERFORMANCE].map((bound) => shown(Math.exp(bound * Math.LN10) / square));
  return [
    {
      problem: {
        code: 'growth-performance',
        pointer,
        found: `growth.rate is ${shown(rate)} a year at ${placeName(length.pointer)} ${shown(length.cm.centre)} cm`,
        allowed: `fishes of that length grow at rates from ${bounds.join(' to ')} a year`,
        fix: 'Look whether the rate counts per year, and whether it comes from ages (otoliths) rather than from lengths alone.',
      },
      reads: [length.pointer],
    },
  ];
};
