import { isoOf } from '../quantity/days.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { pugnacityToKin } from './conduct.js';
import { PASSED, type Rule } from './rule.js';

/** One judgement: two lines of one kin group that do not go in together. */
export interface FamilyBatchMeasure {
  readonly earlier: StockAnimal;
  readonly later: StockAnimal;
  /** The fiercer of what each does to the other, 0 to 4; undefined where what is on record settles nothing. */
  readonly pugnacity: number | undefined;
  readonly sameDay: boolean;
  /** Nobody holds an old territory: the rock was re-laid that day, or a divider stood. */
  readonly settled: boolean;
}

/** Do kin that contest with each other go in on one day? */
export const familyBatch: Rule<FamilyBatchMeasure, 'contestFrom'> = {
  id: 'family-batch',
  question: 'Do kin that contest with each other go in on one day?',
  scope: 'pair',
  planning: 'plan',
  gravest: 'warning',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'either' },
  needs: ['kinGroup', 'conduct.pugnacity', 'enteredOn'],
  sources: [],
  defaults: {
    contestFrom: { value: 1, unit: '1', basis: 'practice', note: 'Pugnacity to kin from which they count as contesting.' },
  },

  measure(stock, { contestFrom }, each) {
    const { animals } = stock;
    animals.forEach((one, index) => {
      for (const other of animals.slice(index + 1)) {
        // Two residents have settled it between them; what is planned is what can still be changed.
        if (one.kind.kinGroup !== other.kind.kinGroup || other.role === 'resident') continue;
        if (one.leaveDay <= (other.entryDay ?? stock.day)) continue;
        each({
          earlier: one,
          later: other,
          pugnacity: fiercer(pugnacityToKin(one.kind, other.kind), pugnacityToKin(other.kind, one.kind), contestFrom),
          sameDay: one.entryDay === other.entryDay,
          settled: isSettled(stock, other),
        });
      }
    });
  },

  judge({ pugnacity, sameDay, settled }, { contestFrom }) {
    if (sameDay || settled) return PASSED;
    if (pugnacity === undefined) return { outcome: 'cantTell', level: 'warning', message: 'family-batch.unknown' };
    if (pugnacity < contestFrom) return PASSED;
    return { outcome: 'failed', level: 'warning', message: 'family-batch.apart' };
  },

  tell({ earlier, later, pugnacity }) {
    return {
      subjects: [
        { id: earlier.id, role: 'earlier' },
        { id: later.id, role: 'later' },
      ],
      data: {
        ...(earlier.entryDay === undefined ? {} : { earlierDay: { date: isoOf(earlier.entryDay) } }),
        ...(later.entryDay === undefined ? {} : { laterDay: { date: isoOf(later.entryDay) } }),
        kinGroup: { keys: [later.kind.kinGroup] },
        ...(pugnacity === undefined ? { missing: { keys: ['conduct.pugnacity'] } } : {}),
      },
      when: later.entryDay ?? null,
      basis: later.kind.pugnacity?.basis ?? 'recalled',
    };
  },
};

/** One that is known to contest is enough; that both keep the peace takes both records. */
function fiercer(one: number | undefined, other: number | undefined, contestFrom: number): number | undefined {
  const known = Math.max(one ?? 0, other ?? 0);
  return (one === undefined || other === undefined) && known < contestFrom ? undefined : known;
}

/** The rock is re-laid on the day a newcomer goes in, or a divider stands on that day. */
function isSettled(stock: Stock, later: StockAnimal): boolean {
  const day = later.entryDay ?? stock.day;
  return stock.rockRelaidOn.includes(day) || stock.divided.some((span) => span.from <= day && day <= span.until);
}
