import type { StockAnimal } from '../stock/stock.js';
import { excludesForGood, findingsWith, type Ground, lastDay, lastingRules } from './ground.js';
import { type Line, newcomerFrom } from './line.js';

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
  let standing: Set<string> | undefined;
  for (const animals of meetings(ground, one, other)) {
    const found = findingsWith(ground, animals, lastingRules(ground)).filter((finding) => excludesForGood(ground, finding, ids));
    const keys = new Set(found.map((finding) => finding.key));
    standing = standing === undefined ? keys : new Set([...standing].filter((key) => keys.has(key)));
    if (standing.size === 0) return false;
  }
  return true;
}

/** The ways a pair can meet that between them hold the safest for every rule that asks for time and length. */
function meetings(ground: Ground, one: Line, other: Line): StockAnimal[][] {
  const early = ground.startDay;
  const late = lastDay(ground);
  const at = (line: Line, day: number, long: boolean): StockAnimal =>
    newcomerFrom({ line, count: line.wish.least }, day, long ? line.lengthsCm.at(-1) : line.lengthsCm[0]);
  return [
    [at(one, early, true), at(other, late, false)],
    [at(one, late, false), at(other, early, true)],
    [at(one, late, false), at(other, late, false)],
  ];
}
