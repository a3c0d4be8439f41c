import type { Stock, StockAnimal } from '../stock/stock.js';
import { treatmentOn } from './attack.js';
import { centralChance, type ContestOptions, contestDefaults, sameSort, settledStrength } from './odds.js';
import { byKindAndLength } from './equals.js';
import { isThere } from './presence.js';
import { type StrengthBook, strengthBook, strengthGaps } from './strength.js';

/** One animal's place in the hierarchy to be expected. */
export interface HierarchyPlace {
  readonly animal: StockAnimal;
  /**
   * Mean chance of winning, 0 to 1, with one even contest added: an animal that beats its only rival does not stand above one that beats
   * ten (as David's score corrects for few contests).
   */
  readonly score: number;
  /** Mean chance of winning against those it contests with, 0 to 1. */
  readonly chance: number;
  /** How many it contests with. */
  readonly rivals: number;
}

/** The hierarchy to be expected on a day. */
export interface ExpectedHierarchy {
  readonly day: number;
  /** From the likely ruler down; animals that contest with nobody are left out. */
  readonly order: readonly HierarchyPlace[];
  /** Animals whose place cannot be told, and what is missing of them. */
  readonly unranked: readonly { readonly animal: StockAnimal; readonly missing: readonly string[] }[];
}

/** Two contest with each other where either does more to the other than ignore it. */
export const DISPLAYS = 1;

const ORDINARY: ContestOptions = {
  evenFrom: contestDefaults.evenFrom.value,
  stepWorth: contestDefaults.stepWorth.value,
  smallerShare: contestDefaults.smallerShare.value,
};

/**
 * The hierarchy to be expected once all that will live together are in, or on another day: for each animal the mean chance of winning
 * against the others that it contests with. A line of several counts as so many rivals, and has one place.
 *
 * @example
 * expectedHierarchy(stockOf(situation, library).stock).order.length; // 0
 */
export function expectedHierarchy(
  stock: Stock,
  day: number = completeDay(stock),
  options: ContestOptions = ORDINARY,
  strengths: StrengthBook = strengthBook(),
): ExpectedHierarchy {
  const present = stock.animals.filter((animal) => isThere(stock, animal, day));
  const gaps = present.map((animal) => gapsOf(animal, day));
  const known = present.filter((_, at) => gaps[at]?.length === 0);
  const sums = known.map(() => ({ wins: 0, rivals: 0 }));
  // What an animal brings into all its contests is worked out once.
  const settled = known.map((animal) => settledStrength(stock, animal, day, strengths));
  known.forEach((one, index) => {
    for (let at = index + 1; at < known.length; at += 1) {
      const other = known[at] as StockAnimal;
      const chance = chanceIfContested(one, settled[index] as number, other, settled[at] as number, day, strengths, options);
      if (chance === undefined) continue;
      const own = sums[index] as { wins: number; rivals: number };
      const theirs = sums[at] as { wins: number; rivals: number };
      own.wins += chance * other.count;
      own.rivals += other.count;
      theirs.wins += (1 - chance) * one.count;
      theirs.rivals += one.count;
    }
  });
  const order = known
    .map((animal, at): HierarchyPlace => {
      const { wins, rivals } = sums[at] as { wins: number; rivals: number };
      return { animal, score: (wins + 0.5) / (rivals + 1), chance: wins / rivals, rivals };
    })
    .filter((place) => place.rivals > 0)
    .sort((one, other) => inBillionths(other.score) - inBillionths(one.score) || byKindAndLength(one.animal, other.animal, day));
  return {
    day,
    order,
    unranked: present.flatMap((animal, at) => {
      const missing = gaps[at] as readonly string[];
      return missing.length > 0 ? [{ animal, missing }] : [];
    }),
  };
}

/** What is missing for an animal's place. */
export function gapsOf(animal: StockAnimal, day: number): readonly string[] {
  const gaps = strengthGaps(animal, day);
  return animal.kind.pugnacity === undefined ? ['conduct.pugnacity', ...gaps] : gaps;
}

/** Sums of chances that are equal may differ by rounding. */
const inBillionths = (score: number): number => Math.round(score * 1e9);

/** First day on which all that stay to the last day looked at are in. */
export const completeDay = (stock: Stock): number =>
  stock.animals.reduce((day, animal) => (animal.leaveDay > stock.horizonDay ? Math.max(day, animal.entryDay ?? day) : day), stock.day);

/** The chance of two of which everything is known; undefined where they leave each other alone. */
function chanceIfContested(
  one: StockAnimal,
  settled: number,
  other: StockAnimal,
  otherSettled: number,
  day: number,
  strengths: StrengthBook,
  options: ContestOptions,
): number | undefined {
  if (!sameSort(one, other)) return undefined;
  const treatment = treatmentOn(one, other, day, false, strengths, options);
  const answer = treatmentOn(other, one, day, false, strengths, options);
  if (treatment.atMost < DISPLAYS && answer.atMost < DISPLAYS) return undefined;
  return centralChance(settled, treatment, otherSettled, answer, options);
}
