import type { Worth } from '@commensal/schema';
import type { Ground } from './ground.js';
import type { Pick } from './line.js';

/** What picks are worth: the sum of priorities counts first, then the number of animals. */
export const worthOf = (picks: readonly Pick[]): Worth => ({
  priority: picks.reduce((sum, { line }) => sum + line.wish.priority, 0),
  animals: picks.reduce((sum, { count }) => sum + count, 0),
});

/** What is worth more first. */
export const byWorth = (one: Worth, other: Worth): number => other.priority - one.priority || other.animals - one.animals;

/** How worth is told in one whole number, so that sets compare by it as they are ranked. */
export interface Scale {
  readonly valueOf: (pick: Pick) => number;
  /** Most priority of a set that is worth less than so much more than another. */
  readonly priorityOf: (value: number) => number;
}

/**
 * Priorities that add up, or of which one that is higher outweighs all that are lower; the number of animals comes after. Every
 * sum is a whole number below 2^53, for 128 wishes of 200 animals and ten priorities: the product of the sizes of the tiers,
 * each one more, is at most 13.8^10, and animals take a factor of 25,601.
 */
export function scaleOf({ lines, stock }: Ground): Scale {
  const perPriority = 1 + lines.reduce((sum, { wish }) => sum + wish.most, 0);
  const strict = stock.settings.priorities === 'strict';
  const weights = strict ? tierWeights(lines.map(({ wish }) => wish.priority)) : undefined;
  return {
    valueOf: ({ line, count }) => (weights?.get(line.wish.priority) ?? line.wish.priority) * perPriority + count,
    priorityOf: (value) => Math.floor(value / perPriority),
  };
}

/** What a wish of each priority weighs where one outweighs all below it. */
function tierWeights(priorities: readonly number[]): Map<number, number> {
  const sizes = new Map<number, number>();
  for (const priority of priorities) sizes.set(priority, (sizes.get(priority) ?? 0) + 1);
  const weights = new Map<number, number>();
  let weight = 1;
  for (const [priority, size] of [...sizes].sort(([one], [other]) => one - other)) {
    weights.set(priority, weight);
    weight *= size + 1;
  }
  return weights;
}
