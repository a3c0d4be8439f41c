import { nitrificationOf } from '../../biology/nitrification.js';
import { type Band, scaled } from '../../quantity/band.js';
import { logDown, logUp, together } from '../../quantity/log-errors.js';
import type { StockTank } from '../../stock/stock.js';
import type { NitrogenOptions } from './options.js';

/** Media of one sort turn over this much more or less than those that were measured (our choice: one published surface). */
const MEDIA_SPREAD = 1.5;

/** A tank said to be cycled may turn over this much more or less: the word covers tests of many strengths (our choice). */
const CYCLED_SPREAD = 3;

/** The most that the filter can turn over, grams of nitrogen a day: as measured, else by its area. Undefined where neither is told. */
export function filterCapacity({ turnoverGPerDay, filterM2 }: StockTank, { ratePerM2 }: NitrogenOptions): Band | undefined {
  if (turnoverGPerDay !== undefined) return turnoverGPerDay;
  if (filterM2 === undefined) return undefined;
  const centre = nitrificationOf(filterM2.centre, ratePerM2);
  return {
    low: centre / Math.exp(together(logDown(filterM2), Math.log(MEDIA_SPREAD))),
    centre,
    high: centre * Math.exp(together(logUp(filterM2), Math.log(MEDIA_SPREAD))),
    basis: 'derived',
  };
}

/** What a tank turns over on the day it is found to be cycled, grams of nitrogen a day. */
export function cycledCapacity({ waterL }: StockTank, { cycledMgPerL }: NitrogenOptions): Band {
  const centre = (waterL.centre * cycledMgPerL) / 1000;
  return { ...scaled(waterL, 1), low: centre / CYCLED_SPREAD, centre, high: centre * CYCLED_SPREAD, basis: 'practice' };
}
