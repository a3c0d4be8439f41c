import type { StockAnimal } from '../stock/stock.js';
import { lengthOn } from './gape/index.js';

/**
 * A fixed order of animals of which any might be told of: by species, then the longer first, then the more of them, and only of those that are alike by id, so that
 * what animals are called does not show.
 */
export const byKindAndLength = (one: StockAnimal, other: StockAnimal, day: number): number =>
  compare(one.kind.id, other.kind.id) || tenths(other, day) - tenths(one, day) || other.count - one.count || compare(one.id, other.id);

const compare = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

/** Lengths that were converted may differ by rounding; unknown ones come last. */
const tenths = (animal: StockAnimal, day: number): number => Math.round(10 * (lengthOn(animal, day) || 0));
