import type { PlannedAnimals, PlannedIntroduction, Plan, Situation } from '@commensal/schema';
import { cautionsIn, check } from '../check/check.js';
import { isoOf } from '../quantity/days.js';
import { expectIds } from '../rules/ids.js';
import { rules as allRules } from '../rules/index.js';
import type { AnyRule } from '../rules/rule.js';
import type { Library } from '../stock/library.js';
import type { StockAnimal } from '../stock/stock.js';
import { alternativesTo, chosenOf } from './alternatives.js';
import { arrange } from './arrange.js';
import { fieldOf } from './field.js';
import { groundOf, stockWith } from './ground.js';
import { gainsFrom } from './if-changed.js';
import { impossibleIn } from './impossible.js';
import { latestDays } from './latest-day.js';
import { leftOutOf } from './left-out.js';
import { MOST_OPTIONS } from './options.js';
import { orderReasons } from './order-reasons.js';
import { MOST_WORK, selectBest } from './select.js';
import { worthOf } from './worth.js';

/** Most wishes a plan is made for. */
export const MOST_WISHES = 128;

export { MOST_OPTIONS };

/** A plan, without the versions it was made with. */
export type Planned = Omit<Plan, '$schema' | 'versions'>;

/**
 * Narrows a wish list to the set worth most in which no newcomer is part of an error, sets the days and lengths of entry, and
 * says of everything left out why, and which changes would let it in. Introductions that stand in the situation are kept; planned
 * ones follow them. Where wishes that have to be in cannot be, nothing is chosen, and `impossible` says which.
 *
 * The situation must be valid and name only species the library holds (`stockOf` tells).
 *
 * @throws RangeError for more than {@link MOST_WISHES} wishes or {@link MOST_OPTIONS} numbers of them, and for rules whose ids `check`
 * refuses as well.
 */
export function plan(situation: Situation, library: Library, rules: readonly AnyRule[] = allRules, mostWork: number = MOST_WORK): Planned {
  expectIds('plan', rules);
  const ground = groundOf(situation, library, rules);
  if (ground.lines.length > MOST_WISHES)
    throw new RangeError(`plan: expected at most ${MOST_WISHES} wishes, received ${ground.lines.length}`);
  const numbers = numbersWished(situation);
  if (numbers > MOST_OPTIONS) throw new RangeError(`plan: expected at most ${MOST_OPTIONS} numbers of wishes in all, received ${numbers}`);
  const field = fieldOf(ground);
  const selection = selectBest(field, { mostWork, ranked: true });
  const isImpossible = selection.arrangement === undefined && ground.lines.some(({ wish }) => wish.must);
  const arrangement = selection.arrangement ?? arrange(ground, []);
  const { picks } = arrangement;
  const { findings, summary, staleAcceptances } = check(
    stockWith(
      ground,
      arrangement.batches.flatMap(({ animals }) => animals),
    ),
    rules,
  );
  const latest = latestDays(ground, arrangement);
  const leftOut = leftOutOf(ground, library, arrangement);
  const lines = ground.lines.map(({ id, wish: { kind } }) => ({ id, kind }));
  return {
    date: isoOf(ground.stock.day),
    chosen: chosenOf(field, picks),
    introductions: arrangement.batches.map(({ day, animals }, position): PlannedIntroduction => {
      const lastDay = latest.days[position];
      return {
        date: isoOf(day),
        ...(lastDay === undefined ? {} : { latest: isoOf(lastDay) }),
        animals: animals.map(plannedAnimals) as [PlannedAnimals, ...PlannedAnimals[]],
        reasons: orderReasons(ground, arrangement, position, latest.own[position]),
      };
    }),
    leftOut,
    proven: selection.proven,
    gap: selection.gap,
    worth: worthOf(picks),
    equals: selection.equals,
    order: arrangement.order,
    alternatives: alternativesTo(field, selection, mostWork),
    ...(isImpossible ? { impossible: impossibleIn(field, mostWork) } : {}),
    ifChanged: isImpossible ? [] : gainsFrom(ground, library, picks, leftOut, mostWork),
    findings,
    summary,
    cautions: cautionsIn(ground.stock, [...findings, ...leftOut.flatMap(({ because }) => because)], lines),
    staleAcceptances,
  };
}

/** How many numbers the wishes leave to choose from. */
export const numbersWished = ({ wishes = [] }: Situation): number =>
  wishes.reduce((sum, { count: [least = 1, most = 1] = [] }) => sum + Math.max(0, most - least + 1), 0);

function plannedAnimals(animal: StockAnimal): PlannedAnimals {
  const length = animal.lengthCm?.centre;
  return {
    id: animal.id,
    species: animal.kind.id,
    count: animal.count,
    ...(length === undefined ? {} : { length: { value: length, unit: 'cm' } }),
    ...(animal.purchaseDay === undefined ? {} : { purchasedOn: isoOf(animal.purchaseDay) }),
  };
}
