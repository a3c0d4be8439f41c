import { isoOf } from '../../quantity/days.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { feedCentreOn, isIn } from '../feed.js';
import { isOver } from '../rounding.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

/** A batch, and what it and all that is in before it are fed on that day. */
export interface SizeMeasure {
  readonly about: 'size';
  readonly batch: readonly StockAnimal[];
  readonly day: number;
  readonly feed: BatchFeed;
}

/** Grams of food on the day of a batch. */
interface BatchFeed {
  readonly ofBatchG: number;
  readonly beforeG: number;
  /** Animals of which nothing tells how large they are. */
  readonly unknown: readonly StockAnimal[];
}

export function measureSizes(stock: Stock, { feedShare }: { readonly feedShare: number }, each: (measure: SizeMeasure) => void): void {
  const days = new Set<number>();
  for (const animal of stock.animals) if (animal.role === 'newcomer' && animal.entryDay !== undefined) days.add(animal.entryDay);
  for (const day of [...days].sort((one, other) => one - other)) {
    const batch = stock.animals.filter((animal) => animal.role === 'newcomer' && animal.entryDay === day);
    const feed = feedOf(stock, batch, day, feedShare);
    if (feed !== undefined) each({ about: 'size', batch, day, feed });
  }
}

export function judgeSize({ feed: { ofBatchG, beforeG, unknown } }: SizeMeasure, { largeShare }: { readonly largeShare: number }): Verdict {
  if (unknown.length > 0) return { outcome: 'cantTell', level: 'note', message: 'entry-gap.sizeUnknown' };
  return isLarge(ofBatchG, beforeG, largeShare) ? LARGE : PASSED;
}

/** What a batch comes to that takes more than its share. */
export const LARGE: Verdict = { outcome: 'failed', level: 'warning', message: 'entry-gap.largeBatch' };

/** Whether a batch takes more than its share of the food, by the grams for it and for all that is in before. */
export const isLarge = (ofBatchG: number, beforeG: number, largeShare: number): boolean =>
  isOver(ofBatchG, largeShare * (ofBatchG + beforeG));

/**
 * What is fed on the day of a batch, in it and before it, by the weight of all. Undefined where nothing fed was in before: the
 * first batch is always all of the food, and what a cycled tank bears is asked of the ammonia.
 */
function feedOf(stock: Stock, batch: readonly StockAnimal[], day: number, feedShare: number): BatchFeed | undefined {
  const before = inBefore(stock, batch, day);
  const unknown: StockAnimal[] = [];
  const gramsOf = (animals: readonly StockAnimal[]): number =>
    animals.reduce((sum, animal) => {
      const grams = feedCentreOn(animal, day, feedShare);
      if (grams === undefined) unknown.push(animal);
      return sum + (grams ?? 0);
    }, 0);
  const [ofBatchG, beforeG] = [gramsOf(batch), gramsOf(before)];
  return beforeG === 0 && unknown.every((animal) => batch.includes(animal)) ? undefined : { ofBatchG, beforeG, unknown };
}

/** All that is in on the day of a batch besides it. */
export const inBefore = (stock: Stock, batch: readonly StockAnimal[], day: number): StockAnimal[] =>
  stock.animals.filter((animal) => isIn(animal, day) && !batch.includes(animal));

export function tellSize({ batch, day, feed: { ofBatchG, beforeG, unknown } }: SizeMeasure): Telling {
  const grams = (value: number): { value: number; unit: string } => ({ value: Number(value.toPrecision(2)), unit: 'g' });
  return {
    subjects: [
      ...batch.map(({ id }) => ({ id, role: 'added' })),
      ...unknown.filter((animal) => !batch.includes(animal)).map(({ id }) => ({ id, role: 'unmeasured' })),
    ],
    data: {
      day: { date: isoOf(day) },
      ...(unknown.length > 0 ? { missing: { keys: ['length'] } } : { feedBefore: grams(beforeG), feedAfter: grams(beforeG + ofBatchG) }),
    },
    when: day,
    basis: 'practice',
  };
}
