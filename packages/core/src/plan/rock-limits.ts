import { likeness } from '../biology/likeness.js';
import { optionsOf } from '../rules/rule.js';
import { rockCrowding } from '../rules/rock-crowding.js';
import type { StockAnimal } from '../stock/stock.js';
import type { Limit } from './best-set/index.js';
import { type Ground, isAsked, lastDay, stockWith } from './ground.js';
import { newcomerFrom, type Pick } from './line.js';

/** Sums of litres are rounded: what is over by less is not over. */
const ROUNDING = 1e-9;

/**
 * The limits that `rock-crowding` sets: of each claimant, the claims that weigh on the rock from where it sits, with everything
 * as short and as late as it may come in, when claims are least. What passes them may still be too much; what does not is.
 *
 * Companions of one species hold the largest claim among them, not the sum: of a species that is there twice nothing is counted.
 */
export function rockLimits(ground: Ground, options: readonly Pick[]): Limit[] {
  const { stock } = ground;
  const { rockL } = stock.tank;
  const isAccepted = stock.settings.accepted.some(({ key }) => key.startsWith(rockCrowding.id));
  if (rockL === undefined || isAccepted || !isAsked(ground, rockCrowding)) return [];
  const weights = optionsOf(rockCrowding, stock);
  const mostL = weights.errorShare * rockL.centre * (1 + ROUNDING);
  const claims = (newcomers: readonly StockAnimal[]): Map<string, number> => {
    const claimed = new Map<string, number>();
    rockCrowding.measure(stockWith(ground, newcomers), weights, ({ animal, claimedL }) => claimed.set(animal.id, claimedL));
    return claimed;
  };
  const species = [...stock.animals.map(({ kind }) => kind.id), ...ground.lines.map(({ wish }) => wish.kind.id)];
  const isSingle = ({ line }: Pick): boolean => species.indexOf(line.wish.kind.id) === species.lastIndexOf(line.wish.kind.id);
  const animals = options.map((pick) => newcomerFrom(pick, Math.max(lastDay(ground), pick.line.readyDay), pick.line.lengthsCm[0]));
  const bare = claims([]);
  const alone = animals.map((animal) => claims([animal]));
  const limits: Limit[] = [];
  for (const [id, own] of bare) {
    const uses = options.map((pick, at) => (isSingle(pick) ? Math.max(0, (alone[at]?.get(id) ?? own) - own) : 0));
    if (uses.some((use) => use > 0)) limits.push({ uses, most: Math.max(0, mostL - own) });
  }
  animals.forEach((animal, only) => {
    const own = alone[only]?.get(animal.id);
    if (own === undefined) return;
    const uses = options.map((pick, at) => {
      const other = animals[at] as StockAnimal;
      if (other.id === animal.id || !isSingle(pick) || likeness(animal.kind, other.kind, weights) === 0) return 0;
      return Math.max(0, (claims([animal, other]).get(animal.id) ?? own) - own);
    });
    if (uses.some((use) => use > 0)) limits.push({ uses, most: Math.max(0, mostL - own), only });
  });
  return limits;
}
