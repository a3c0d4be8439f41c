import type { Basis } from '@commensal/schema';
import type { Band } from '../../quantity/band.js';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { arrivalOf, comers, isThere } from '../presence.js';
import { isUnder } from '../rounding.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';
import type { Food } from './food.js';

/** All that live on one food, when they are most, and the water they have between them. */
export interface SharingMeasure {
  readonly about: 'sharing';
  readonly food: Food;
  readonly animals: readonly StockAnimal[];
  readonly count: number;
  readonly day: number;
  readonly waterL: Band;
  readonly basis: Basis;
}

export function measureSharing(stock: Stock, each: (measure: SharingMeasure) => void): void {
  const byFood = new Map<Food, StockAnimal[]>();
  for (const animal of comers(stock)) {
    const food = animal.kind.record.feeding?.specialist?.food;
    // Of a food that is not there, nobody has a share; that is told by itself.
    if (food === undefined || stock.tank.foods?.includes(food) === false) continue;
    const sharers = byFood.get(food);
    if (sharers === undefined) byFood.set(food, [animal]);
    else sharers.push(animal);
  }
  for (const [food, sharers] of byFood) {
    const most = mostAtATime(stock, sharers);
    // One by itself shares with nobody.
    if (most.count > 1) each({ about: 'sharing', food, ...most, waterL: stock.tank.waterL, basis: basisOf(most.animals) });
  }
}

function mostAtATime(stock: Stock, sharers: readonly StockAnimal[]): { animals: readonly StockAnimal[]; count: number; day: number } {
  const days = [...new Set(sharers.map((animal) => arrivalOf(stock, animal)))].sort((one, other) => one - other);
  return days
    .map((day) => {
      const animals = sharers.filter((animal) => isThere(stock, animal, day));
      return { animals, count: animals.reduce((sum, animal) => sum + animal.count, 0), day };
    })
    .reduce((most, next) => (next.count > most.count ? next : most));
}

const basisOf = (animals: readonly StockAnimal[]): Basis =>
  weakest('practice', ...animals.map((animal) => animal.kind.record.feeding?.specialist?.basis ?? 'recalled'));

export function judgeSharing(
  { count, waterL }: SharingMeasure,
  { litresPerSpecialist }: { readonly litresPerSpecialist: number },
): Verdict {
  const needed = count * litresPerSpecialist;
  if (isUnder(waterL.centre, needed)) return { outcome: 'failed', level: 'warning', message: 'niche.tooMany' };
  return isUnder(waterL.low, needed) ? { outcome: 'cantTell', level: 'warning', message: 'niche.mayBeTooMany' } : PASSED;
}

export function tellSharing(
  { food, animals, count, day, waterL, basis }: SharingMeasure,
  { outcome }: Verdict,
  { litresPerSpecialist }: { readonly litresPerSpecialist: number },
): Telling {
  return {
    subjects: animals.map((animal) => ({ id: animal.id, role: 'sharer' })),
    data: {
      food: { keys: [food] },
      count: { value: count, unit: '1' },
      each: { value: litresPerSpecialist, unit: 'L' },
      needed: { value: count * litresPerSpecialist, unit: 'L' },
      water: { value: Math.round(waterL.centre), unit: 'L' },
      enough: { value: Math.max(1, Math.floor(waterL.centre / litresPerSpecialist)), unit: '1' },
      ...(outcome === 'cantTell' ? { settle: { keys: ['tank.water'] } } : {}),
    },
    when: day,
    basis,
  };
}
