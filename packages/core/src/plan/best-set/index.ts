import { graphOf } from './graph.js';
import { modelOf } from './model.js';
import { byValue, grow } from './grow.js';
import { worthOf } from './holds.js';
import { holdsNogood, learn, nogoodsFor } from './nogoods.js';
import { type Found, keyOf } from './found.js';
import { type BestSet, checkProblem, checkSaid, type SetProblem, type SetSearch } from './problem.js';
import { pass } from './search.js';

export type { BestSet, Limit, Said, SetProblem, SetSearch } from './problem.js';

const MOST_STEPS = 1_000_000;

/**
 * The set of options worth most under conflicts, groups, limits and musts, with a proof; exact branch and bound (see `pass`).
 * Sets need not be full, and the empty one counts.
 *
 * With whole values that sum to less than 2^51, bounds and values are exact, and no better set is ever cut off by rounding. With other
 * values, sums are compared as they come in the order of the options, and bounds are kept wide by more than they can be off. Uses that
 * are whole numbers are summed exactly as well; of others the sum in the order of the options decides.
 *
 * @throws RangeError on more than 512 options, values and uses that are negative or not finite, numbers of no option, and where `say` names
 * options that are not in the set it was asked of.
 *
 * @example bestSet({ values: [4, 3, 2], groups: [], conflicts: [[0, 1]], limits: [], musts: [] }).options; // [0, 2]
 */
export function bestSet(problem: SetProblem, search: SetSearch = {}): BestSet {
  checkProblem(problem);
  const { mostSteps = MOST_STEPS, isOver = never, say, ties = never } = search;
  const graph = graphOf(problem);
  const model = modelOf(problem, graph);
  const nogoods = nogoodsFor(model);
  const said = new Set<string>();
  let best: Found | undefined;
  let steps = 0;
  let rejected = 0;
  /** No set that was not offered is worth more, as a pass has shown. */
  let ceiling = Number.POSITIVE_INFINITY;
  const isWanted = (value: number): boolean => best === undefined || value > best.value || (value === best.value && ties());
  const isTaken = (one: Found): boolean => {
    said.add(keyOf(one.options));
    const word = say === undefined ? 'taken' : say(one.options, one.value);
    if (word === 'taken') {
      best = one;
      return true;
    }
    rejected += 1;
    if (word !== 'not-this') {
      const rows = [...new Set(word)].map((row) => (typeof row === 'number' ? [row] : row));
      checkSaid(rows, problem, one.options);
      learn(nogoods, model, rows);
    }
    return false;
  };
  for (let isGrown = false; ; ) {
    const floor = best?.value ?? Number.NEGATIVE_INFINITY;
    const orEqual = best !== undefined && ties();
    const most = say === undefined ? 1 : Math.max(1, rejected >> 2);
    const start = said.size === 0 ? model.start : undefined;
    const found = pass(model, nogoods, { most, floor, orEqual, start, said, mostSteps: mostSteps - steps, isOver });
    steps += found.steps;
    let open = Math.min(found.open, ceiling);
    const isStopped = open > Number.NEGATIVE_INFINITY;
    if (!isStopped) ceiling = found.found[0]?.value ?? floor;
    let isNew = false;
    for (const one of found.found) {
      if (!isWanted(one.value)) break;
      if (holdsNogood(nogoods, model, one.options)) continue;
      if (say !== undefined && isOver()) {
        open = Math.max(open, one.value);
        break;
      }
      isNew = isTaken(one) || isNew;
    }
    if (open > Number.NEGATIVE_INFINITY) return stopped(best, open, model.grain, steps);
    const isAll = found.found.length < most;
    if (isAll && (best === undefined || orEqual || best.value > floor)) return proven(best, steps);
    if ((isAll || isNew) && !(best !== undefined && ties())) return proven(best, steps);
    if (best === undefined && rejected >= REJECTED_BEFORE_SMALL && !isGrown) {
      isGrown = true;
      grow(problem, graph, byValue(problem), (options) => {
        const value = worthOf(problem, options);
        if (isOver() || !isWanted(value) || said.has(keyOf(options)) || holdsNogood(nogoods, model, options)) return false;
        return isTaken({ options, value });
      });
    }
  }
}

/** After so many sets turned down and none taken, small sets are offered, so that there is something to show. */
const REJECTED_BEFORE_SMALL = 12;

const never = (): boolean => false;

const proven = (best: Found | undefined, steps: number): BestSet => ({
  options: best?.options,
  value: best?.value ?? Number.NEGATIVE_INFINITY,
  proven: true,
  bound: best?.value ?? Number.NEGATIVE_INFINITY,
  steps,
});

/** A search that was ended: what was not looked at is worth `open` at most. */
function stopped(best: Found | undefined, open: number, grain: number, steps: number): BestSet {
  const value = best?.value ?? Number.NEGATIVE_INFINITY;
  const bound = grain > 0 ? Math.floor(open / grain) * grain : open;
  if (best !== undefined && bound <= value) return proven(best, steps);
  return { options: best?.options, value, proven: false, bound, steps };
}
