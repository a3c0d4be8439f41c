import type { StockKind } from '../../stock/stock.js';

/** How much a swallower cares for a sort of prey. */
export type Interest = 'habitual' | 'opportunist' | 'noneRecorded';

/**
 * For fishes what the record says of fish-eating; for shrimps and crabs whether they stand in the diet. What is not known
 * counts as habitual: a gap must not make a danger smaller.
 */
export function interestIn(predator: StockKind, prey: StockKind): Interest {
  const feeding = predator.record.feeding;
  if (prey.form === 'fish') return feeding?.fishEating?.value ?? 'habitual';
  const foods = feeding?.eats?.foods;
  if (foods === undefined) return 'habitual';
  return foods.includes(prey.form === 'crab' ? 'crabs' : 'shrimps') ? 'habitual' : 'noneRecorded';
}
