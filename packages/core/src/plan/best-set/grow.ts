import { addBit, hasBit } from './bits.js';
import type { Graph } from './graph.js';
import { keepsLimits, meetsMusts, worthOf } from './holds.js';
import type { SetProblem } from './problem.js';

/**
 * A set grown by one option at a time in the order given: first one for each must, then each with which no conflict arises, no limit is passed
 * and `isFine` says so. Undefined where the musts are not met that way, or not fine.
 */
export function grow(
  problem: SetProblem,
  { words, clash }: Graph,
  ordered: readonly number[],
  isFine: (options: readonly number[]) => boolean = () => true,
): readonly number[] | undefined {
  const { musts } = problem;
  const blocked = new Int32Array(words);
  let set: readonly number[] = [];
  const add = (option: number, isWelcome: (options: readonly number[]) => boolean): boolean => {
    if (hasBit(blocked, 0, option) || hasBit(clash, option * words, option)) return false;
    const tried = [...set, option].sort((one, other) => one - other);
    if (!keepsLimits(problem, tried) || !isWelcome(tried)) return false;
    set = tried;
    addBit(blocked, 0, option);
    for (let word = 0; word < words; word += 1) blocked[word] = (blocked[word] ?? 0) | (clash[option * words + word] ?? 0);
    return true;
  };
  for (const row of musts) {
    if (!row.some((option) => set.includes(option)))
      ordered.filter((option) => row.includes(option)).some((option) => add(option, () => true));
  }
  if (!meetsMusts(problem, set) || !keepsLimits(problem, set)) return undefined;
  if (set.length > 0 && !isFine(set)) return undefined;
  for (const option of ordered) add(option, isFine);
  return set;
}

/** Options by value, greatest first. */
export const byValue = ({ values }: SetProblem): number[] =>
  values.map((_, option) => option).sort((one, other) => (values[other] ?? 0) - (values[one] ?? 0));

/** A good set found quickly, to measure others against: the better of two that are grown. */
export function greedySet(problem: SetProblem, graph: Graph): readonly number[] | undefined {
  const { values, limits } = problem;
  const worthPerLoad = values.map((value, option) => {
    const load = limits.reduce((sum, { uses, most, only }) => sum + (only === undefined && most > 0 ? (uses[option] ?? 0) / most : 0), 0);
    // A use of nothing must not divide by nothing.
    return value / (1e-9 + load);
  });
  const byLoad = values.map((_, option) => option).sort((one, other) => (worthPerLoad[other] ?? 0) - (worthPerLoad[one] ?? 0));
  const one = grow(problem, graph, byValue(problem));
  const other = grow(problem, graph, byLoad);
  if (one === undefined || other === undefined) return one ?? other;
  return worthOf(problem, one) >= worthOf(problem, other) ? one : other;
}
