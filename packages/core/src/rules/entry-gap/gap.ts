import { isoOf } from '../../quantity/days.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

/** A batch, and the one that went in before it. */
export interface GapMeasure {
  readonly about: 'gap';
  readonly batch: readonly StockAnimal[];
  readonly day: number;
  readonly dayBefore: number;
  readonly gapDays: number;
}

export function measureGaps({ animals }: Stock, each: (measure: GapMeasure) => void): void {
  const days = new Set<number>();
  for (const animal of animals) if (animal.entryDay !== undefined) days.add(animal.entryDay);
  const inOrder = [...days].sort((one, other) => one - other);
  for (let at = 1; at < inOrder.length; at += 1) {
    const day = inOrder[at] as number;
    const dayBefore = inOrder[at - 1] as number;
    const batch = animals.filter((animal) => animal.role === 'newcomer' && animal.entryDay === day);
    if (batch.length > 0) each({ about: 'gap', batch, day, dayBefore, gapDays: day - dayBefore });
  }
}

export function judgeGap({ gapDays }: GapMeasure, options: { readonly gapDays: number }): Verdict {
  return gapDays < options.gapDays ? { outcome: 'failed', level: 'warning', message: 'entry-gap.tooClose' } : PASSED;
}

export function tellGap({ batch, day, dayBefore, gapDays }: GapMeasure, options: { readonly gapDays: number }): Telling {
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
}
