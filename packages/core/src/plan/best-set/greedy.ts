import type { Graph } from './graph.js';
import { isWithoutConflict, keepsLimits, meetsMusts, worthOf } from './holds.js';
import type { SetProblem } from './problem.js';

/** A good set found quickly, to measure others against: the best of a few greedy ones. Undefined where none meets the musts. */
export function greedySet(problem: SetProblem, graph: Graph): readonly number[] | undefined {
  const { values, limits, musts } = problem;
  const load = values.map((_, option) =>
    limits.reduce((sum, { uses, most, only }) => sum + (only === undefined && most > 0 ? (uses[option] ?? 0) / most : 0), 0),
  );
  const value = (option: number): number => values[option] ?? 0;
  const perLoad = (option: number): number => value(option) / (1e-9 + (load[option] ?? 0));
  let best: number[] | undefined;
  for (const merit of [value, perLoad]) {
    const ordered = values.map((_, option) => option).sort((one, other) => merit(other) - merit(one));
    const set: number[] = [];
    const add = (option: number): boolean => {
      const tried = [...set, option].sort((one, other) => one - other);
      const fits = !set.includes(option) && isWithoutConflict(graph, tried) && keepsLimits(problem, tried);
      if (fits) set.splice(0, set.length, ...tried);
      return fits;
    };
    for (const row of musts) if (!row.some((option) => set.includes(option))) ordered.filter((option) => row.includes(option)).some(add);
    if (!meetsMusts(problem, set) || !keepsLimits(problem, set)) continue;
    ordered.forEach(add);
    if (best === undefined || worthOf(problem, set) > worthOf(problem, best)) best = set;
  }
  return best;
}
