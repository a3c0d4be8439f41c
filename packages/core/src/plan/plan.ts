import type { PlannedAnimals, PlannedIntroduction, Plan, Situation } from '@commensal/schema';
import { cautionsIn } from '../check/check.js';
import { isoOf } from '../quantity/days.js';
import { expectIds } from '../rules/ids.js';
import { rules as allRules } from '../rules/index.js';
import type { AnyRule } from '../rules/rule.js';
import type { Library } from '../stock/library.js';
import type { StockAnimal } from '../stock/stock.js';
import { groundOf } from './ground.js';
import { leftOutOf } from './left-out.js';
import { orderReasons } from './order-reasons.js';
import { MOST_WORK, selectBest } from './select.js';

/** Most wishes a plan is made for. */
export const MOST_WISHES = 24;

/** A plan, without the versions it was made with. */
export type Planned = Omit<Plan, '$schema' | 'versions'>;

/**
 * Narrows a wish list to the set worth most in which no newcomer is part of an error, sets the days and lengths of entry, and
 * says of everything left out why, and which single changes would let it in. Introductions that stand in the situation are
 * kept; planned ones follow them.
 *
 * The situation must be valid and name only species the library holds (`stockOf` tells).
 *
 * @throws RangeError for more than {@link MOST_WISHES} wishes, and for rules whose ids `check` refuses as well.
 */
export function plan(situation: Situation, library: Library, rules: readonly AnyRule[] = allRules, mostWork: number = MOST_WORK): Planned {
  expectIds('plan', rules);
  const ground = groundOf(situation, library, rules);
  if (ground.lines.length > MOST_WISHES)
    throw new RangeError(`plan: expected at most ${MOST_WISHES} wishes, received ${ground.lines.length}`);
  const { arrangement, proven, gap } = selectBest(ground, mostWork);
  const granted = new Map(arrangement.picks.map((pick) => [pick.line.wish, pick]));
  const { findings, summary, staleAcceptances } = arrangement.checked;
  const leftOut = leftOutOf(ground, library, arrangement);
  const lines = ground.lines.map(({ id, wish: { kind } }) => ({ id, kind }));
  return {
    date: isoOf(ground.stock.day),
    chosen: ground.stock.wishes.flatMap((wish) => {
      const pick = granted.get(wish);
      return pick === undefined ? [] : [{ species: wish.kind.id, count: pick.count }];
    }),
    introductions: arrangement.batches.map(
      ({ day, animals }, position): PlannedIntroduction => ({
        date: isoOf(day),
        animals: animals.map(plannedAnimals),
        reasons: orderReasons(ground, arrangement, position),
      }),
    ),
    leftOut,
    proven,
    gap,
    worth: {
      priority: arrangement.picks.reduce((sum, { line }) => sum + line.wish.priority, 0),
      animals: arrangement.picks.reduce((sum, { count }) => sum + count, 0),
    },
    equals: { weighed: 1, all: false },
    order: { proven: false, cost: 0, atLeast: 0 },
    alternatives: [],
    ifChanged: [],
    findings,
    summary,
    cautions: cautionsIn(ground.stock, [...findings, ...leftOut.flatMap(({ because }) => because)], lines),
    staleAcceptances,
  };
}

function plannedAnimals(animal: StockAnimal): PlannedAnimals {
  const length = animal.lengthCm?.centre;
  return {
    id: animal.id,
    species: animal.kind.id,
    count: animal.count,
    ...(length === undefined ? {} : { length: { value: length, unit: 'cm' } }),
  };
}
