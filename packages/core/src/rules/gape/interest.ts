import type { StockKind } from '../../stock/stock.js';

/** How much a swallower cares for a sort of prey. */
export type Interest = 'habitual' | 'opportunist' | 'noneRecorded' | 'unknown';

/**
 * For fishes what the record says of fish-eating; for shrimps and crabs whether they stand in the diet, and whether they do so
 * only as tiny animals. What is unknown weighs as much as what is habitual: a gap must not make a danger smaller.
 */
export function interestIn(predator: StockKind, prey: StockKind): Interest {
  const feeding = predator.record.feeding;
  if (prey.form === 'fish') return feeding?.fishEating?.value ?? 'unknown';
  const diet = feeding?.eats;
  if (diet === undefined) return 'unknown';
  const food = prey.form === 'crab' ? 'crabs' : 'shrimps';
  if (!diet.foods.includes(food)) return 'noneRecorded';
  return diet.small?.includes(food) === true ? 'opportunist' : 'habitual';
}
