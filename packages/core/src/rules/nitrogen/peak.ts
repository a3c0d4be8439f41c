import type { Basis, Datum, Level } from '@commensal/schema';
import { unIonisedShare } from '../../biology/un-ionised-share.js';
import { firstWhere } from '../../quantity/first-where.js';
import { isoOf } from '../../quantity/days.js';
import type { Stock, StockAnimal, StockTank } from '../../stock/stock.js';
import { isFed } from '../feed.js';
import { INAPPLICABLE, PASSED, type Telling, type Verdict } from '../rule.js';
import { type Course, courseOf, type Peak } from './course.js';
import { range } from './figures.js';
import type { Loads } from './load.js';
import type { NitrogenOptions } from './options.js';

/** The highest ammonia between a batch and the next, or some weeks after the last. */
export interface PeakMeasure {
  readonly what: 'peak';
  readonly newcomers: readonly StockAnimal[];
  readonly batchDay: number;
  /** Undefined where it is not known what the nitrifiers can do at the start. */
  readonly course: Course | undefined;
  /** Which of the batches it is. */
  readonly at: number;
  /** Un-ionised ammonia, mg/L as N, at the worst water of the tank. */
  readonly peak: { readonly mgPerL: number; readonly worstMgPerL: number; readonly day: number } | undefined;
  /** Un-ionised share of total ammonia there. */
  readonly share: number;
  /** Properties of the water that are not told. */
  readonly assumed: readonly string[];
  readonly feedIsTold: boolean;
  readonly proteinIsTold: boolean;
  readonly basis: Basis;
}

export function measurePeaks(stock: Stock, loads: Loads, options: NitrogenOptions, each: (measure: PeakMeasure) => void): void {
  const batches = new Map<number, StockAnimal[]>();
  for (const animal of stock.animals) {
    if (animal.role !== 'newcomer' || !isFed(animal)) continue;
    const day = Math.max(stock.day, animal.entryDay ?? stock.day);
    batches.set(day, [...(batches.get(day) ?? []), animal]);
  }
  if (batches.size === 0) return;
  const days = [...batches.keys()].sort((one, other) => one - other);
  const course = courseOf(stock, loads, days, options);
  const { share, assumed } = worstWater(stock.tank, options);
  const peaks = course === undefined ? undefined : unIonisedPeaks(course, share, options);
  for (const [at, batchDay] of days.entries()) {
    each({
      what: 'peak',
      newcomers: batches.get(batchDay) as StockAnimal[],
      batchDay,
      at,
      course,
      peak: peaks?.[at],
      share,
      assumed,
      feedIsTold: loads.isTold,
      proteinIsTold: loads.proteinIsTold,
      basis: 'recalled',
    });
    // What is not known of the start is said once.
    if (course === undefined) break;
  }
}

/**
 * Whether some peak passes the error limit at the centre: without that there is no failure at level error. Found without the doubts,
 * which are dear to follow.
 */
export function peaksOverError(stock: Stock, loads: Loads, options: NitrogenOptions): boolean {
  const days = batchDaysOf(stock);
  const course = days.length === 0 ? undefined : courseOf(stock, loads, days, options);
  if (course === undefined) return false;
  const { share } = worstWater(stock.tank, options);
  const isOver = ({ mgPerL, isPassing }: Peak): boolean => isPassing && mgPerL * share > options.errorMgPerL;
  return course.centre().some(isOver);
}

/** The highest un-ionised ammonia after any batch at the centre, mg/L as N; undefined without batches, and where the start is not known. */
export function highestPeak(stock: Stock, loads: Loads, options: NitrogenOptions): number | undefined {
  const days = batchDaysOf(stock);
  const course = days.length === 0 ? undefined : courseOf(stock, loads, days, options);
  if (course === undefined) return undefined;
  const { share } = worstWater(stock.tank, options);
  return Math.max(...course.centre().map(({ mgPerL }) => mgPerL * share));
}

/** The days on which fed newcomers go in, in order. */
const batchDaysOf = ({ animals, day: today }: Stock): number[] =>
  [
    ...new Set(
      animals.filter((animal) => animal.role === 'newcomer' && isFed(animal)).map(({ entryDay }) => Math.max(today, entryDay ?? today)),
    ),
  ].sort((one, other) => one - other);

/** The share of ammonia that is un-ionised where the water of the tank is worst, and what is not told of it. */
function worstWater({ acidity, temperatureCel, salinity }: StockTank, options: NitrogenOptions): { share: number; assumed: string[] } {
  return {
    share: unIonisedShare(
      acidity?.high ?? options.usualAcidity,
      temperatureCel?.high ?? options.usualCel,
      salinity?.low ?? options.usualSalinity,
    ),
    assumed: [
      ...(acidity === undefined ? ['tank.acidity'] : []),
      ...(temperatureCel === undefined ? ['tank.temperature'] : []),
      ...(salinity === undefined ? ['tank.salinity'] : []),
    ],
  };
}

/**
 * Un-ionised peaks and how high they may be. Where all at its worst at once comes to nothing worth a note, or to no harm, that
 * says how high, and no more is followed: most tanks end here.
 */
function unIonisedPeaks(course: Course, share: number, { noteMgPerL, warningMgPerL }: NitrogenOptions): NonNullable<PeakMeasure['peak']>[] {
  const ofDoing = ({ mgPerL, isPassing }: Peak): number => (isPassing ? mgPerL * share : 0);
  const worst = course.worstCorner().map(ofDoing);
  const highest = Math.max(...worst);
  if (highest <= noteMgPerL) return course.worstCorner().map(({ day }, at) => ({ mgPerL: 0, worstMgPerL: worst[at] as number, day }));
  return course.centre().map((peak, at) => {
    const mgPerL = ofDoing(peak);
    const corner = worst[at] as number;
    const reached = corner <= warningMgPerL ? corner : peak.mgPerL * share * Math.exp(course.up()[at] as number);
    return { mgPerL, worstMgPerL: Math.max(mgPerL, corner === 0 ? 0 : reached), day: peak.day };
  });
}

/** A doubt about harm goes before a note, which would hide it; a doubt about what is only worth a note is none. */
export function judgePeak({ peak, assumed, course }: PeakMeasure, { noteMgPerL, warningMgPerL, errorMgPerL }: NitrogenOptions): Verdict {
  if (peak === undefined) return { outcome: 'cantTell', level: 'warning', message: 'nitrogen.peakUnknown' };
  const limits: readonly (readonly [limit: number, level: Level])[] = [
    [errorMgPerL, 'error'],
    [warningMgPerL, 'warning'],
    [noteMgPerL, 'note'],
  ];
  const over = limits.find(([limit]) => peak.mgPerL > limit)?.[1];
  const maybe = limits.find(([limit]) => peak.worstMgPerL > limit)?.[1];
  const isHarm = (level: Level | undefined): level is Level => level !== undefined && level !== 'note';
  // With water that is only assumed, what comes out too high cannot be told either.
  if (isHarm(over))
    return assumed.length > 0
      ? { outcome: 'cantTell', level: over, message: 'nitrogen.mayPeak' }
      : { outcome: 'failed', level: over, message: 'nitrogen.peak' };
  if (isHarm(maybe)) return { outcome: 'cantTell', level: maybe, message: 'nitrogen.mayPeak' };
  if (over !== undefined) return { outcome: 'failed', level: 'note', message: 'nitrogen.peak' };
  // Without a bound on what the filter holds the peak comes out too low; that the filter is not told is said of the load.
  return course?.scene.filter === undefined ? INAPPLICABLE : PASSED;
}

export function tellPeak(measure: PeakMeasure, { level, outcome }: Verdict, stock: Stock, options: NitrogenOptions): Telling {
  const { newcomers, course, at, batchDay, peak, share, basis } = measure;
  const subjects = newcomers.map(({ id }) => ({ id, role: 'newcomer' }));
  const day: Record<string, Datum> = { day: { date: isoOf(batchDay) } };
  if (peak === undefined || course === undefined) {
    return { subjects, data: { ...day, missing: { keys: ['tank.cycledOn'] } }, when: batchDay, basis };
  }
  const centre = (course.centre()[at] as Peak).mgPerL * share;
  const low = centre / Math.exp(course.down()[at] as number);
  const limit = level === 'error' ? options.errorMgPerL : level === 'warning' ? options.warningMgPerL : options.noteMgPerL;
  const previousDay = course.scene.batchDays[at - 1];
  const gap = previousDay === undefined ? undefined : gapThatDoes(course, at, share, options.warningMgPerL);
  return {
    subjects,
    data: {
      ...day,
      ...range('peak', { low, high: peak.worstMgPerL }, 'mg/L'),
      limit: { value: limit, unit: 'mg/L' },
      ...(previousDay === undefined ? {} : { dayBefore: { date: isoOf(previousDay) } }),
      ...(gap === undefined || previousDay === undefined
        ? {}
        : { gap: { value: gap, unit: 'd' }, wait: { date: isoOf(previousDay + gap) } }),
      ...(outcome === 'cantTell' ? { settle: { keys: [...whatWouldSettle(measure)] } } : {}),
    },
    when: Math.max(stock.day, Math.floor(peak.day)),
    basis,
  };
}

/** What is not told of water and food; where both are, how much the nitrifiers can do. */
function whatWouldSettle({ assumed, feedIsTold, proteinIsTold }: PeakMeasure): readonly string[] {
  if (assumed.length > 0) return assumed;
  if (!feedIsTold) return ['tank.feed'];
  return [proteinIsTold ? 'tank.filter' : 'tank.feed.protein'];
}

/** Longest wait that is tried: by then a tank has settled. */
const LONGEST_GAP = 120;

/**
 * Days after the batch before with which the peak of this one stays under the limit at the centre; undefined where the plan
 * waits long enough, and where no wait does.
 */
function gapThatDoes(course: Course, at: number, share: number, limit: number): number | undefined {
  const batchDay = course.scene.batchDays[at] as number;
  const planned = batchDay - (course.scene.batchDays[at - 1] as number);
  const does = (gap: number): boolean => (course.delayed({ from: batchDay, days: gap - planned })[at] as Peak).mgPerL * share <= limit;
  if (planned >= LONGEST_GAP || does(planned) || !does(LONGEST_GAP)) return undefined;
  return firstWhere(planned, LONGEST_GAP, does);
}
