import type { Basis } from '@commensal/schema';
import { type Band, bandOf } from '../../quantity/band.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { comers } from '../presence.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

/** An animal that wants to be fed so often a day. */
export interface FeedingsMeasure {
  readonly about: 'feedings';
  readonly animal: StockAnimal;
  readonly wants: Band;
  readonly given: number | undefined;
  readonly basis: Basis;
}

/** Silence means that it can do with what the tank is given: most animals can. */
export function measureFeedings(stock: Stock, each: (measure: FeedingsMeasure) => void): void {
  for (const animal of comers(stock)) {
    const feedings = animal.kind.record.feeding?.feedings;
    if (feedings === undefined) continue;
    // A need is a line drawn: a bare number is that line, not the middle of a band.
    each({ about: 'feedings', animal, wants: bandOf(feedings, '/d', 1), given: stock.tank.feedingsPerDay, basis: feedings.basis });
  }
}

export function judgeFeedings({ wants, given }: FeedingsMeasure): Verdict {
  if (given === undefined) return { outcome: 'cantTell', level: 'warning', message: 'niche.feedingsUnknown' };
  if (given < wants.centre) return { outcome: 'failed', level: 'warning', message: 'niche.fedTooSeldom' };
  return given < wants.high ? { outcome: 'cantTell', level: 'warning', message: 'niche.mayBeFedTooSeldom' } : PASSED;
}

export function tellFeedings({ animal, wants, given, basis }: FeedingsMeasure, { outcome }: Verdict): Telling {
  return {
    subjects: [{ id: animal.id, role: 'animal' }],
    data: {
      wantsLow: { value: wants.low, unit: '1' },
      wantsHigh: { value: wants.high, unit: '1' },
      ...(given === undefined ? { missing: { keys: ['tank.feedingsPerDay'] } } : { given: { value: given, unit: '1' } }),
      ...(outcome === 'cantTell' && given !== undefined ? { settle: { keys: ['feeding.feedings'] } } : {}),
    },
    when: null,
    basis,
  };
}
