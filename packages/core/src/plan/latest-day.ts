import { findingsOf } from '../check/check.js';
import { gape } from '../rules/gape/index.js';
import type { StockAnimal } from '../stock/stock.js';
import type { Arrangement } from './arrange.js';
import type { Ground } from './ground.js';

/** How far ahead a last day is told. */
const DAYS_AHEAD = 365;

/** The last day on which a batch can go in at its lengths, and what comes after: one that is there could swallow one of it. */
export interface LatestDay {
  readonly day: number;
  readonly prey: StockAnimal;
  readonly predator: StockAnimal;
}

/**
 * Mouths grow in the tank, while what waits to be bought stays as long as it is to be. So there is one day from which on it can be
 * swallowed on entry, found by halving. Undefined where there is none within a year.
 */
export function latestDay(ground: Ground, { batches }: Arrangement, position: number): LatestDay | undefined {
  const entry = batches[position];
  if (entry === undefined || !ground.rules.includes(gape)) return undefined;
  const there = [...ground.stock.animals, ...batches.slice(0, position).flatMap(({ animals }) => animals)];
  let first: LatestDay | undefined;
  for (const prey of entry.animals) {
    for (const predator of there) {
      const isSafe = (day: number): boolean => !couldSwallow(ground, predator, { ...prey, entryDay: day, lengthDay: day });
      const until = first?.day ?? entry.day + DAYS_AHEAD;
      if (isSafe(until) || !isSafe(entry.day)) continue;
      let [safe, unsafe] = [entry.day, until];
      while (unsafe - safe > 1) {
        const middle = Math.floor((safe + unsafe) / 2);
        if (isSafe(middle)) safe = middle;
        else unsafe = middle;
      }
      first = { day: safe, prey, predator };
    }
  }
  return first;
}

const couldSwallow = (ground: Ground, predator: StockAnimal, prey: StockAnimal): boolean =>
  findingsOf({ ...ground.stock, animals: [predator, prey] }, [gape], 'error').some(
    ({ outcome, subjects, accepted }) =>
      outcome === 'failed' && accepted === undefined && subjects.some(({ id, role }) => role === 'prey' && id === prey.id),
  );
