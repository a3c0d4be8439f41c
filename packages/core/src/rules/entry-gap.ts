import { isoOf } from '../quantity/days.js';
import type { StockAnimal } from '../stock/stock.js';
import { PASSED, type Rule } from './rule.js';

/** One judgement: a batch, and the one that went in before it. */
export interface EntryGapMeasure {
  readonly batch: readonly StockAnimal[];
  readonly day: number;
  readonly dayBefore: number;
  readonly gapDays: number;
}

/** Do batches go in far enough apart? */
export const entryGap: Rule<EntryGapMeasure, 'gapDays'> = {
  id: 'entry-gap',
  question: 'Is there about a month between one batch and the next?',
  scope: 'tank',
  planning: 'plan',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'either' },
  needs: ['enteredOn', 'introductions.date'],
  sources: [],
  defaults: {
    gapDays: { value: 28, unit: 'd', basis: 'practice', note: 'Days between batches, so that filter and animals settle.' },
  },

  measure(stock, _options, each) {
    const days = new Set<number>();
    for (const animal of stock.animals) if (animal.entryDay !== undefined) days.add(animal.entryDay);
    const inOrder = [...days].sort((one, other) => one - other);
    for (let at = 1; at < inOrder.length; at += 1) {
      const day = inOrder[at] as number;
      const dayBefore = inOrder[at - 1] as number;
      const batch = stock.animals.filter((animal) => animal.role === 'newcomer' && animal.entryDay === day);
      if (batch.length > 0) each({ batch, day, dayBefore, gapDays: day - dayBefore });
    }
  },

  judge({ gapDays }, options) {
    return gapDays < options.gapDays ? { outcome: 'failed', level: 'warning', message: 'entry-gap.tooClose' } : PASSED;
  },

  tell({ batch, day, dayBefore, gapDays }, _verdict, _stock, options) {
    return {
      subjects: batch.map((animal) => ({ id: animal.id, role: 'newcomer' })),
      data: {
        gap: { value: gapDays, unit: 'd' },
        needed: { value: options.gapDays, unit: 'd' },
        day: { date: isoOf(day) },
        dayBefore: { date: isoOf(dayBefore) },
        earliest: { date: isoOf(dayBefore + options.gapDays) },
      },
      when: day,
      basis: 'practice',
    };
  },
};
