import type { Basis } from '@commensal/schema';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { PASSED, type Telling, type Verdict } from './rule.js';

/** One judgement of what is told in words: light and flow against what an animal wants, copper against what it bears. */
export interface WaterWordMeasure {
  readonly property: 'light' | 'flow' | 'copper';
  /** One animal; of a tank that may hold copper all that it would harm. */
  readonly animals: readonly StockAnimal[];
  /** What the animal wants; undefined for copper, which no invertebrate bears. */
  readonly wants: string | undefined;
  /** What the tank has; undefined where the situation does not tell. */
  readonly has: string | undefined;
  readonly basis: Basis;
}

/** Whether a measure is of this sort. */
export const isWord = (measure: { readonly property: string }): measure is WaterWordMeasure =>
  measure.property === 'light' || measure.property === 'flow' || measure.property === 'copper';

/** Light and flow are asked only for animals that want some of their own; copper only for those it kills. */
export function measureWords({ animals, tank }: Stock, each: (measure: WaterWordMeasure) => void): void {
  for (const animal of animals) {
    for (const property of ['light', 'flow'] as const) {
      const need = animal.kind.record.needs?.[property];
      if (need === undefined || need.value === 'any') continue;
      each({ property, animals: [animal], wants: need.value, has: tank[property], basis: need.basis });
    }
  }
  const harmed = animals.filter((animal) => animal.kind.form !== 'fish');
  const lines = tank.copper === undefined ? (harmed.length > 0 ? [harmed] : []) : harmed.map((animal) => [animal]);
  for (const line of lines) each({ property: 'copper', animals: line, wants: undefined, has: tank.copper, basis: 'practice' });
}

export function judgeWord({ property, wants, has }: WaterWordMeasure): Verdict {
  if (property === 'copper') {
    // Most tanks never saw copper: to ask is worth a note, no more.
    if (has === undefined) return { outcome: 'cantTell', level: 'note', message: 'water.copperUnknown' };
    if (has === 'never') return PASSED;
    return has === 'present'
      ? { outcome: 'failed', level: 'error', message: 'water.copper' }
      : { outcome: 'failed', level: 'warning', message: 'water.copperRemoved' };
  }
  if (has === undefined) return { outcome: 'cantTell', level: 'warning', message: `water.${property}Unknown` };
  return has === wants ? PASSED : { outcome: 'failed', level: 'warning', message: `water.${property}` };
}

export function tellWord({ property, animals, wants, has, basis }: WaterWordMeasure): Telling {
  return {
    subjects: animals.map(({ id }) => ({ id, role: property })),
    data: {
      ...(wants === undefined ? {} : { wants: { keys: [wants] } }),
      ...(has === undefined ? { missing: { keys: [`tank.${property}`] } } : { has: { keys: [has] } }),
    },
    when: null,
    basis,
  };
}
