import { isoOf } from '../quantity/days.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { feedOn, feedShareDefault, isIn } from './feed.js';
import { lengthBook } from './gape/lengths.js';
import { PASSED, type Rule, type Telling } from './rule.js';

/** One judgement: a batch, and what it and all that is in before it are fed on that day. */
export interface BatchSizeMeasure {
  readonly batch: readonly StockAnimal[];
  readonly day: number;
  readonly feed: BatchFeed;
}

/** Grams of food on the day of a batch. */
export interface BatchFeed {
  readonly ofBatchG: number;
  readonly beforeG: number;
  /** Animals of which nothing tells how large they are. */
  readonly unknown: readonly StockAnimal[];
}

/** Is any batch too large at once for what is in before it? */
export const batchSize: Rule<BatchSizeMeasure, 'largeShare' | 'feedShare'> = {
  id: 'batch-size',
  question: 'Does one batch eat more than all that is in before it?',
  scope: 'tank',
  planning: 'plan',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'either', delay: 'either' },
  needs: ['enteredOn', 'introductions.date', 'size.entry', 'size.weight', 'growth', 'feeding.dailyFeed'],
  sources: [],
  defaults: {
    largeShare: { value: 0.5, unit: '1', basis: 'practice', note: 'Share of the food of the day above which a batch is large.' },
    feedShare: feedShareDefault,
  },

  measure(stock, { feedShare }, each) {
    const days = new Set<number>();
    for (const animal of stock.animals) if (animal.role === 'newcomer' && animal.entryDay !== undefined) days.add(animal.entryDay);
    for (const day of [...days].sort((one, other) => one - other)) {
      const batch = stock.animals.filter((animal) => animal.role === 'newcomer' && animal.entryDay === day);
      const feed = feedOf(stock, batch, day, feedShare);
      if (feed !== undefined) each({ batch, day, feed });
    }
  },

  judge({ feed: { ofBatchG, beforeG, unknown } }, { largeShare }) {
    if (unknown.length > 0) return { outcome: 'cantTell', level: 'note', message: 'batch-size.unknown' };
    const isLarge = ofBatchG > largeShare * (ofBatchG + beforeG);
    return isLarge ? { outcome: 'failed', level: 'warning', message: 'batch-size.large' } : PASSED;
  },

  tell({ batch, day, feed }) {
    return tellFeed(batch, day, feed);
  },
};

/**
 * What is fed on the day of a batch, in it and before it, by the weight of all. Undefined where nothing fed was in before: the
 * first batch is always all of the food, and what a cycled tank bears is asked of the ammonia.
 */
function feedOf(stock: Stock, batch: readonly StockAnimal[], day: number, feedShare: number): BatchFeed | undefined {
  const lengths = lengthBook();
  const before = stock.animals.filter((animal) => isIn(animal, day) && !batch.includes(animal));
  const unknown: StockAnimal[] = [];
  const gramsOf = (animals: readonly StockAnimal[]): number =>
    animals.reduce((sum, animal) => {
      const feed = feedOn(animal, day, feedShare, lengths);
      if (feed === undefined) unknown.push(animal);
      return sum + (feed?.centre ?? 0);
    }, 0);
  const [ofBatchG, beforeG] = [gramsOf(batch), gramsOf(before)];
  return beforeG === 0 && unknown.every((animal) => batch.includes(animal)) ? undefined : { ofBatchG, beforeG, unknown };
}

function tellFeed(batch: readonly StockAnimal[], day: number, { ofBatchG, beforeG, unknown }: BatchFeed): Telling {
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
