import type { Basis } from '@commensal/schema';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { comers } from '../presence.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

/** An animal that an intake can catch, and whether the intakes are fenced off. */
export interface PumpMeasure {
  readonly about: 'pumps';
  readonly animal: StockAnimal;
  /** Wandering anemones, and what cannot swim against a flow, are killed; what creeps mostly pulls itself off. */
  readonly grave: boolean;
  readonly pumps: 'guarded' | 'unguarded' | undefined;
  readonly basis: Basis;
}

/** Silence on activity and flow means that the animal swims: most do. */
export function measurePumps(stock: Stock, each: (measure: PumpMeasure) => void): void {
  for (const animal of comers(stock)) {
    const { activity, flow } = animal.kind.record.needs ?? {};
    const creeps = activity?.value === 'crawls' || activity?.value === 'fixed';
    const weak = flow?.value === 'gentle';
    const grave = animal.kind.form === 'anemone' || weak;
    if (!grave && !creeps) continue;
    const told = weak ? flow : creeps ? activity : undefined;
    each({ about: 'pumps', animal, grave, pumps: stock.tank.pumps, basis: weakest('practice', told?.basis ?? 'practice') });
  }
}

export function judgePumps({ grave, pumps }: PumpMeasure): Verdict {
  if (pumps === 'guarded') return PASSED;
  const level = grave ? 'warning' : 'note';
  return pumps === undefined
    ? { outcome: 'cantTell', level, message: 'escape.pumpsUnknown' }
    : { outcome: 'failed', level, message: 'escape.pumps' };
}

export function tellPumps({ animal, pumps, basis }: PumpMeasure): Telling {
  return {
    subjects: [{ id: animal.id, role: 'caught' }],
    data: pumps === undefined ? { missing: { keys: ['tank.pumps'] } } : {},
    when: null,
    basis,
  };
}
