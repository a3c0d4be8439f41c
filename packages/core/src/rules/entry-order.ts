import type { Basis } from '@commensal/schema';
import { isoOf } from '../quantity/days.js';
import type { StockAnimal } from '../stock/stock.js';
import { isPugnacious, isScavenger } from './conduct.js';
import { PASSED, type Rule } from './rule.js';

/** One judgement: an animal, and those that go in on the wrong side of it. */
export interface EntryOrderMeasure {
  readonly animal: StockAnimal;
  readonly what: 'scavenger' | 'pugnacious' | 'unknown';
  /** For a scavenger those that went in before it; else the peaceful ones that go in after it. */
  readonly wronged: readonly StockAnimal[];
  readonly basis: Basis;
}

/** Do scavengers go in first, and the peaceful before the pugnacious? */
export const entryOrder: Rule<EntryOrderMeasure, 'pugnaciousToOthers' | 'pugnaciousToNewcomers'> = {
  id: 'entry-order',
  question: 'Do scavengers go in first, and peaceful animals before pugnacious ones?',
  scope: 'tank',
  planning: 'plan',
  gravest: 'warning',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'either' },
  needs: ['introduction', 'conduct.pugnacity', 'enteredOn'],
  sources: [],
  defaults: {
    pugnaciousToOthers: {
      value: 3,
      unit: '1',
      basis: 'practice',
      note: 'Pugnacity to other kinds from which an animal counts as pugnacious.',
    },
    pugnaciousToNewcomers: {
      value: 2,
      unit: '1',
      basis: 'practice',
      note: 'Pugnacity to newcomers from which an animal counts as pugnacious.',
    },
  },

  measure(stock, { pugnaciousToOthers, pugnaciousToNewcomers }, each) {
    const newcomers = stock.animals.filter((animal) => animal.role === 'newcomer');
    const pugnacious = (animal: StockAnimal): boolean | undefined => isPugnacious(animal.kind, pugnaciousToOthers, pugnaciousToNewcomers);
    const dayOfEntry = (animal: StockAnimal): number => animal.entryDay ?? Number.NEGATIVE_INFINITY;
    for (const animal of stock.animals) {
      const day = dayOfEntry(animal);
      if (isScavenger(animal)) {
        if (animal.role === 'newcomer') {
          const wronged = newcomers.filter((other) => !isScavenger(other) && dayOfEntry(other) < day);
          each({ animal, what: 'scavenger', wronged, basis: animal.kind.record.introduction?.basis ?? 'recalled' });
        }
        continue;
      }
      const after = newcomers.filter((other) => dayOfEntry(other) > day && animal.leaveDay > dayOfEntry(other) && !isScavenger(other));
      const fierce = pugnacious(animal);
      // One whose nature is not known may well be peaceful.
      const peaceful = after.filter((other) => pugnacious(other) !== true);
      each({
        animal,
        what: fierce === undefined ? 'unknown' : 'pugnacious',
        wronged: fierce === false ? [] : peaceful,
        basis: animal.kind.pugnacity?.basis ?? 'recalled',
      });
    }
  },

  judge({ animal, what, wronged }) {
    if (wronged.length === 0) return PASSED;
    if (what === 'unknown') return { outcome: 'cantTell', level: 'warning', message: 'entry-order.unknown' };
    if (what === 'scavenger') return { outcome: 'failed', level: 'note', message: 'entry-order.scavengerLate' };
    return {
      outcome: 'failed',
      level: 'warning',
      message: animal.role === 'resident' ? 'entry-order.earlySettler' : 'entry-order.pugnaciousEarly',
    };
  },

  tell({ animal, what, wronged, basis }) {
    const role = what === 'scavenger' ? 'scavenger' : animal.role === 'resident' ? 'settler' : 'pugnacious';
    return {
      subjects: [{ id: animal.id, role }, ...wronged.map((other) => ({ id: other.id, role: what === 'scavenger' ? 'before' : 'after' }))],
      data: {
        ...(animal.entryDay === undefined ? {} : { day: { date: isoOf(animal.entryDay) } }),
        ...(what === 'unknown' ? { missing: { keys: ['conduct.pugnacity'] } } : {}),
      },
      when: animal.entryDay ?? null,
      basis,
    };
  },
};
