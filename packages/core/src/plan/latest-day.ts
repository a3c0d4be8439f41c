import { type Asked, findingsOf } from '../check/check.js';
import { firstWhere } from '../quantity/first-where.js';
import { gape } from '../rules/gape/index.js';
import { holding } from '../stock/same-shape.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import type { Arrangement } from './arrange.js';
import type { Ground } from './ground.js';
import { movedTo } from './line.js';
import { type TimeBound, timesOf } from './time-network.js';

/** How far ahead a last day is told. */
const DAYS_AHEAD = 365;

/** From the day after on, one that is there could swallow one that comes in at its length. */
export interface LatestDay {
  readonly day: number;
  readonly prey: StockAnimal;
  readonly predator: StockAnimal;
}

/** The batches' last days: each as nothing but its own animals asks, and each as the gaps to all that come later leave it. */
export interface LatestDays {
  readonly own: readonly (LatestDay | undefined)[];
  readonly days: readonly (number | undefined)[];
}

/**
 * The last day of each batch while those before it go in as planned, those behind it may move, and gaps are kept: a network of
 * bounds in time. A newcomer that is there may come later as well, and then leaves what it could swallow more time.
 */
export function latestDays(ground: Ground, { batches }: Arrangement): LatestDays {
  const dangers = batches.map((_, position) => dangersOf(ground, batches, position));
  const bounds = dangers.flatMap((some, to): TimeBound[] =>
    some.map(({ danger, from }) => ({ from, to, atMost: danger.day - (from === undefined ? 0 : (batches[from] as Batch).day) })),
  );
  batches.forEach(({ day }, at) => {
    const before = batches[at - 1];
    // No gap is asked for that the plan itself does not keep.
    if (before !== undefined) bounds.push({ from: at, to: at - 1, atMost: -Math.min(ground.gapDays, day - before.day) });
  });
  const days = batches.map(({ day }, at): number | undefined => {
    const asPlanned = batches.slice(0, at).flatMap((batch, to): TimeBound[] => [
      { to, atMost: batch.day },
      { from: to, atMost: -batch.day },
    ]);
    const times = timesOf(batches.length, [...bounds, ...asPlanned]);
    const latest = times.cycle === undefined ? times.latest[at] : undefined;
    return latest === undefined || latest > day + DAYS_AHEAD ? undefined : latest;
  });
  return { own: dangers.map((some) => some.reduce<LatestDay | undefined>(soonest, undefined)), days };
}

type Batch = Arrangement['batches'][number];

/** A last day by one that is there: a resident, or one of an earlier batch. */
interface Danger {
  readonly danger: LatestDay;
  readonly from: number | undefined;
}

const soonest = (first: LatestDay | undefined, { danger }: Danger): LatestDay =>
  first === undefined || danger.day < first.day ? danger : first;

function dangersOf(ground: Ground, batches: readonly Batch[], position: number): Danger[] {
  const entry = batches[position];
  const swallowing = ground.sets.meeting.filter(({ rule }) => rule === gape);
  if (entry === undefined || swallowing.length === 0) return [];
  const residents = ground.stock.animals.map((animal) => ({ animal, from: undefined }));
  const newcomers = batches.slice(0, position).flatMap(({ animals }, from) => animals.map((animal) => ({ animal, from })));
  return entry.animals.flatMap((prey) =>
    [...residents, ...newcomers].flatMap(({ animal: predator, from }): Danger[] => {
      const day = lastSafeDay(ground.stock, swallowing, entry.day, prey, predator);
      return day === undefined ? [] : [{ danger: { day, prey, predator }, from }];
    }),
  );
}

/**
 * Mouths grow in the tank, while what waits to be bought stays as long as it is to be: there is one day from which on it can be swallowed
 * on entry, found by halving. Undefined where there is none within a year.
 */
function lastSafeDay(
  stock: Stock,
  swallowing: readonly Asked[],
  entryDay: number,
  prey: StockAnimal,
  predator: StockAnimal,
): number | undefined {
  const isLate = (day: number): boolean => couldSwallow(stock, swallowing, predator, movedTo(prey, day));
  const until = entryDay + DAYS_AHEAD;
  return isLate(until) && !isLate(entryDay) ? firstWhere(entryDay + 1, until, isLate) - 1 : undefined;
}

const couldSwallow = (stock: Stock, swallowing: readonly Asked[], predator: StockAnimal, prey: StockAnimal): boolean =>
  findingsOf(holding(stock, [predator, prey]), swallowing, 'error').some(
    ({ outcome, subjects, accepted }) =>
      outcome === 'failed' && accepted === undefined && subjects.some(({ id, role }) => role === 'prey' && id === prey.id),
  );
