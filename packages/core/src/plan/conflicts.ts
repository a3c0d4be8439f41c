import { isVendors } from '../rules/ids.js';
import type { StockAnimal } from '../stock/stock.js';
import { clashEverywhere } from './clashes.js';
import { excludesForGood, findingsWith, type Ground, lastDayTried } from './ground.js';
import { everyLength, type Line, newcomerFrom, type Pick } from './line.js';
import { isAmong } from './rule-sets.js';

/**
 * Which wishes cannot be together, however they meet, judged at the fewest of each that would do; found as they are asked
 * for.
 */
export function conflictsBetween(ground: Ground): (one: Line, other: Line) => boolean {
  const known = new Map<string, boolean>();
  return (one, other) => {
    const [first, second] = one.id < other.id ? [one, other] : [other, one];
    const key = `${first.id} ${second.id}`;
    let answer = known.get(key);
    if (answer === undefined) {
      answer = first === second || clash(ground, first, second);
      known.set(key, answer);
    }
    return answer;
  };
}

/** Whether one finding stands however the two meet. */
function clash(ground: Ground, one: Line, other: Line): boolean {
  const ids = new Set([one.id, other.id]);
  let standing: Map<string, string> | undefined;
  const standsIn = (ways: readonly StockAnimal[][]): boolean =>
    ways.every((animals) => {
      // What is about one animal alone was asked of each before.
      const found = findingsWith(ground, animals, ground.sets.lastingOnTwo).filter((finding) => excludesForGood(ground, finding, ids));
      const before = standing;
      standing = new Map(found.filter(({ key }) => before?.has(key) ?? true).map(({ key, rule }) => [key, rule]));
      return standing.size > 0;
    });
  if (!standsIn(meetings(ground, one, other))) return false;
  const isEitherWay = (rule: string): boolean => isAmong(ground.sets.eitherWay, rule);
  const rules = (): string[] => [...(standing ?? new Map<string, string>()).values()];
  if (rules().some((rule) => !isVendors(rule) && !isEitherWay(rule))) return true;
  if (rules().some(isEitherWay) && clashEverywhere(ground, fewest(one), fewest(other))) return true;
  return rules().some(isVendors) && standsIn(moreMeetings(ground, one, other)) && rules().some(isVendors);
}

const fewest = (line: Line): Pick => ({ line, count: line.wish.least });

const at = (line: Line, day: number, lengthCm: number | undefined): StockAnimal => newcomerFrom(fewest(line), day, lengthCm);

/** The ways a pair can meet that between them hold the safest for every rule of ours that asks for time and length. */
function meetings(ground: Ground, one: Line, other: Line): StockAnimal[][] {
  const early = ground.startDay;
  const late = (line: Line): number => lastDayTried(ground, line);
  const short = ({ lengthsCm }: Line): number | undefined => lengthsCm[0];
  const long = ({ lengthsCm }: Line): number | undefined => lengthsCm.at(-1);
  return [
    [at(one, early, long(one)), at(other, late(other), short(other))],
    [at(one, late(one), short(one)), at(other, early, long(other))],
    [at(one, late(one), short(one)), at(other, late(other), short(other))],
  ];
}

/** What is safest under a rule of others is not known: every length beside every other, on the first day and the last. */
function moreMeetings(ground: Ground, one: Line, other: Line): StockAnimal[][] {
  const ways = (line: Line): StockAnimal[] =>
    everyLength(line).flatMap((length) => [ground.startDay, lastDayTried(ground, line)].map((day) => at(line, day, length)));
  return ways(one).flatMap((first) => ways(other).map((second) => [first, second]));
}
