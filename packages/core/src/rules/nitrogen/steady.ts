import { areaForLoad } from '../../biology/nitrification.js';
import { firstWhere } from '../../quantity/first-where.js';
import type { Band } from '../../quantity/band.js';
import { weakest } from '../../quantity/basis.js';
import { ratioOf } from '../../quantity/ratio.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { isFed } from '../feed.js';
import { isOver } from '../rounding.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';
import { filterCapacity } from './capacity.js';
import { range, twoDigits } from './figures.js';
import type { Loads } from './load.js';
import type { NitrogenOptions } from './options.js';

/** The largest load to the horizon against what the filter turns over, grams of nitrogen a day. */
export interface LoadMeasure {
  readonly what: 'load';
  readonly eaters: readonly StockAnimal[];
  readonly load: Band;
  /** Undefined where nothing tells of the filter. */
  readonly filter: Band | undefined;
  /** First day on which the load is more than the filter turns over; Infinity when it never is. */
  readonly overDay: number;
  /** Fed animals of unknown size. */
  readonly unknown: readonly StockAnimal[];
  /** Nothing is planned and nothing is told: nobody asked. */
  readonly unasked: boolean;
  readonly feedIsTold: boolean;
  readonly proteinIsTold: boolean;
}

export function measureLoad(stock: Stock, loads: Loads, options: NitrogenOptions, each: (measure: LoadMeasure) => void): void {
  const filter = filterCapacity(stock.tank, options);
  const lastDay = Math.max(stock.horizonDay, loads.days.at(-1) ?? stock.day);
  let most = loads.on(stock.day);
  let overDay = Number.POSITIVE_INFINITY;
  loads.days.forEach((from, at) => {
    // From one change to the next animals grow and nothing else happens, so that the load is largest at the end.
    const until = Math.max(from, (loads.days[at + 1] ?? lastDay + 1) - 1);
    const load = loads.on(until);
    if (load.centre > most.centre) most = load;
    const over = (day: number): boolean => filter !== undefined && loads.on(day).centre > filter.centre;
    if (overDay === Number.POSITIVE_INFINITY && over(until)) overDay = firstWhere(from, until, over);
  });
  if (most.centre === 0 && loads.unknown.length === 0) return;
  each({
    what: 'load',
    eaters: stock.animals.filter((animal) => animal.leaveDay > stock.day && (isFed(animal) || loads.isTold)),
    load: most,
    filter,
    overDay,
    unknown: loads.unknown,
    unasked: filter === undefined && !loads.isTold && stock.animals.every(({ role }) => role === 'resident'),
    feedIsTold: loads.isTold,
    proteinIsTold: loads.proteinIsTold,
  });
}

export function judgeLoad({ load, filter, unknown, unasked }: LoadMeasure): Verdict {
  if (filter === undefined) return { outcome: 'cantTell', level: unasked ? 'note' : 'warning', message: 'nitrogen.filterUnknown' };
  if (isOver(load.centre, filter.centre)) return { outcome: 'failed', level: 'warning', message: 'nitrogen.overCapacity' };
  if (unknown.length > 0) return { outcome: 'cantTell', level: 'warning', message: 'nitrogen.loadUnknown' };
  if (ratioOf(load, filter).high > 1) return { outcome: 'cantTell', level: 'warning', message: 'nitrogen.mayBeOverCapacity' };
  return PASSED;
}

/** Frozen food and dry food are further apart than media of one sort. */
function whatWouldSettle({ feedIsTold, proteinIsTold }: Pick<LoadMeasure, 'feedIsTold' | 'proteinIsTold'>): string {
  if (!feedIsTold) return 'tank.feed';
  return proteinIsTold ? 'tank.filter' : 'tank.feed.protein';
}

export function tellLoad(
  { eaters, load, filter, overDay, unknown, ...told }: LoadMeasure,
  { message }: Verdict,
  options: NitrogenOptions,
): Telling {
  const ofSizeUnknown = message === 'nitrogen.loadUnknown';
  const missing = [...(filter === undefined ? ['tank.filter'] : []), ...missingOf(unknown)];
  return {
    subjects: (ofSizeUnknown ? unknown : eaters).map(({ id }) => ({ id, role: 'eater' })),
    data: {
      ...range('load', milligrams(load), 'mg/d'),
      area: { value: twoDigits(areaForLoad(load.centre, options.ratePerM2)), unit: 'm2' },
      ...(filter === undefined ? {} : range('filter', milligrams(filter), 'mg/d')),
      ...(filter === undefined || load.centre <= filter.centre
        ? {}
        : { missingArea: { value: twoDigits(areaForLoad(load.centre - filter.centre, options.ratePerM2)), unit: 'm2' } }),
      ...(missing.length > 0 ? { missing: { keys: missing } } : {}),
      ...(message === 'nitrogen.mayBeOverCapacity' ? { settle: { keys: [whatWouldSettle(told)] } } : {}),
    },
    when: Number.isFinite(overDay) ? overDay : null,
    basis: filter === undefined ? load.basis : weakest(load.basis, filter.basis),
  };
}

function missingOf(unknown: readonly StockAnimal[]): string[] {
  const isUnmeasured = ({ lengthCm, kind }: StockAnimal): boolean => lengthCm === undefined && kind.adultCm === undefined;
  return [
    ...(unknown.some(isUnmeasured) ? ['length'] : []),
    ...(unknown.some((animal) => !isUnmeasured(animal) && animal.kind.asymptoticCm === undefined) ? ['growth.asymptoticLength'] : []),
  ];
}

const milligrams = ({ low, high }: Band): { low: number; high: number } => ({ low: low * 1000, high: high * 1000 });
