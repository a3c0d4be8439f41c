import { addBit, hasBit, wordsFor } from './bits.js';
import type { Limit, SetProblem } from './problem.js';

/** Which options exclude each other, as bits: option `one` excludes those in the set at `one * words`. An option that excludes itself is out. */
export interface Graph {
  readonly count: number;
  readonly words: number;
  readonly clash: Int32Array;
}

/** Conflicts as given, those within groups, and those of pairs that no limit has room for. */
export function graphOf({ values, groups, conflicts, limits }: SetProblem): Graph {
  const count = values.length;
  const words = wordsFor(count);
  const clash = new Int32Array(count * words);
  const join = (one: number, other: number): void => {
    addBit(clash, one * words, other);
    addBit(clash, other * words, one);
  };
  for (const [one, other] of conflicts) join(one, other);
  for (const group of groups) for (const one of group) for (const other of group) if (one !== other) join(one, other);
  for (const limit of limits) joinByLimit(limit, join);
  return { count, words, clash };
}

function joinByLimit({ uses, most, only }: Limit, join: (one: number, other: number) => void): void {
  const use = (option: number): number => uses[option] ?? 0;
  const descending = uses.map((_, option) => option).sort((one, other) => use(other) - use(one));
  if (only === undefined) {
    descending.forEach((one, at) => {
      if (use(one) > most) join(one, one);
      for (let next = at + 1; next < descending.length; next += 1) {
        const other = descending[next] ?? 0;
        if (!(use(one) + use(other) > most)) break;
        join(one, other);
      }
    });
    return;
  }
  if (use(only) > most) join(only, only);
  for (const other of descending) if (other !== only && use(only) + use(other) > most) join(only, other);
}

/**
 * Options parted into cliques of the graph, so that each choice takes at most one of each: every option joins the first clique with
 * which it clashes throughout. Those that exclude themselves are left out.
 */
export function cliquesOf({ words, clash }: Graph, order: readonly number[]): number[][] {
  const cliques: number[][] = [];
  for (const option of order) {
    if (hasBit(clash, option * words, option)) continue;
    const home = cliques.find((clique) => clique.every((other) => hasBit(clash, option * words, other)));
    if (home === undefined) cliques.push([option]);
    else home.push(option);
  }
  return cliques;
}
