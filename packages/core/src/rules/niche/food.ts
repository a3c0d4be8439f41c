import type { Basis, SpeciesRecord } from '@commensal/schema';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { comers } from '../presence.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';

export type Food = NonNullable<NonNullable<SpeciesRecord['feeding']>['specialist']>['food'];

/** An animal that lives on one food, and whether the tank offers it. */
export interface FoodMeasure {
  readonly about: 'food';
  readonly animal: StockAnimal;
  readonly food: Food;
  readonly obligate: boolean;
  /** Undefined where the situation does not tell what is on offer. */
  readonly offered: boolean | undefined;
  readonly basis: Basis;
}

/** Silence on a special food means that there is none: most animals take what is given. */
export function measureFood(stock: Stock, each: (measure: FoodMeasure) => void): void {
  for (const animal of comers(stock)) {
    const specialist = animal.kind.record.feeding?.specialist;
    if (specialist === undefined) continue;
    const { food, obligate, basis } = specialist;
    each({ about: 'food', animal, food, obligate, offered: stock.tank.foods?.includes(food), basis });
  }
}

export function judgeFood({ obligate, offered }: FoodMeasure): Verdict {
  if (offered === true) return PASSED;
  const level = obligate ? 'error' : 'warning';
  return offered === undefined
    ? { outcome: 'cantTell', level, message: 'niche.foodUnknown' }
    : { outcome: 'failed', level, message: obligate ? 'niche.starves' : 'niche.foodLacking' };
}

export function tellFood({ animal, food, offered, basis }: FoodMeasure): Telling {
  return {
    subjects: [{ id: animal.id, role: 'specialist' }],
    data: { food: { keys: [food] }, ...(offered === undefined ? { missing: { keys: ['tank.foods'] } } : {}) },
    when: null,
    basis,
  };
}
