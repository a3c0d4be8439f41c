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

/** What goes in, when and at which length, with what is found in it: the plan without what explains the rest. */
export type PlanChoice = Pick<
  Planned,
  'date' | 'chosen' | 'introductions' | 'proven' | 'gap' | 'worth' | 'equals' | 'order' | 'findings' | 'summary' | 'staleAcceptances'
>;

/** Why the rest is left out and what would let it in, what else there is to choose, and the cautions of all of it. */
export type PlanReasons = Pick<Planned, 'leftOut' | 'alternatives' | 'impossible' | 'ifChanged' | 'cautions'>;

/** A plan in two steps. */
export interface PlanSteps {
  readonly choice: PlanChoice;
  /** Wishes that have to be in cannot be: nothing is chosen, and the reasons say which. */
  readonly isImpossible: boolean;
  /** Wishes that are left out. */
  readonly leftOut: number;
  /** Takes about as long again as the choice. */
  readonly explain: () => PlanReasons;
}

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
  const { choice, explain } = planInSteps(situation, library, rules, mostWork);
  return joinSteps(choice, explain());
}

/** The plan that a choice and its reasons make. */
export function joinSteps(choice: PlanChoice, reasons: PlanReasons): Planned {
  const { date, chosen, introductions, proven, gap, worth, equals, order, findings, summary, staleAcceptances } = choice;
  const { leftOut, alternatives, impossible, ifChanged, cautions } = reasons;
  return {
    date,
    chosen,
    introductions,
    leftOut,
    proven,
    gap,
    worth,
    equals,
    order,
    alternatives,
    ...(impossible === undefined ? {} : { impossible }),
    ifChanged,
    findings,
    summary,
    cautions,
    staleAcceptances,
  };
}

/**
 * The same plan in two steps, for whoever wants to show what goes in before all that is left out is explained: the explanations try a
 * changed tank for every change they tell of.
 *
 * @throws RangeError as `plan` does.
 */
export function planInSteps(
  situation: Situation,
  library: Library,
  rules: readonly AnyRule[] = allRules,
  mostWork: number = MOST_WORK,
): PlanSteps {
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
  const chosen = chosenOf(field, picks);
  return {
    choice: {
      date: isoOf(ground.stock.day),
      chosen,
      introductions: arrangement.batches.map(({ day, animals }, position): PlannedIntroduction => {
        const lastDay = latest.days[position];
        return {
          date: isoOf(day),
          ...(lastDay === undefined ? {} : { latest: isoOf(lastDay) }),
          animals: animals.map(plannedAnimals) as [PlannedAnimals, ...PlannedAnimals[]],
          reasons: orderReasons(ground, arrangement, position, latest.own[position]),
        };
      }),
      proven: selection.proven,
      gap: selection.gap,
      worth: worthOf(picks),
      equals: selection.equals,
      order: arrangement.order,
      findings,
      summary,
      staleAcceptances,
    },
    isImpossible,
    leftOut: ground.lines.length - new Set(picks.map(({ line }) => line)).size,
    explain: () => {
      const leftOut = leftOutOf(ground, library, arrangement);
      const lines = ground.lines.map(({ id, wish: { kind } }) => ({ id, kind }));
      return {
        leftOut,
        alternatives: alternativesTo(field, selection, mostWork),
        ...(isImpossible ? { impossible: impossibleIn(field, mostWork) } : {}),
        ifChanged: isImpossible ? [] : gainsFrom(ground, library, picks, leftOut, mostWork),
        cautions: cautionsIn(ground.stock, [...findings, ...leftOut.flatMap(({ because }) => because)], lines),
      };
    },
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
