/**
 * Some of the items that cannot all be, of which any all but one can: QuickXplain (Junker 2004, "QUICKXPLAIN: preferred explanations and
 * relaxations for over-constrained problems", AAAI-04; method from memory). What holds besides the items is known to `isFeasible` alone, which
 * has to be monotone: fewer items are feasible wherever more are.
 *
 * Of several such sets, earlier items are in it where they can be: it is the one whose last item in the given order comes earliest, and of
 * those with that item the one whose last but one comes earliest, and so on. Put first what is best named as a reason, last what is
 * best spared.
 *
 * A conflict of k out of n items takes about 2k log2(n/k) + 2k questions.
 *
 * @returns The conflict in the given order; empty where nothing is feasible even without items; undefined where all items are.
 *
 * @example minimalConflict([500, 500, 2600], (costs) => costs.reduce((sum, cost) => sum + cost, 0) <= 3000); // [500, 2600]
 */
export function minimalConflict<T>(items: readonly T[], isFeasible: (items: readonly T[]) => boolean): T[] | undefined {
  if (isFeasible(items)) return undefined;
  if (items.length === 0 || !isFeasible([])) return [];
  return conflictIn([], false, items, isFeasible);
}

/** Of `items`, which with `beside` are not feasible, those that any conflict with `beside` needs. */
function conflictIn<T>(beside: readonly T[], isNew: boolean, items: readonly T[], isFeasible: (items: readonly T[]) => boolean): T[] {
  if (isNew && !isFeasible(beside)) return [];
  if (items.length === 1) return [...items];
  const half = items.length >> 1;
  const early = items.slice(0, half);
  const late = items.slice(half);
  const ofLate = conflictIn([...beside, ...early], true, late, isFeasible);
  const ofEarly = conflictIn([...beside, ...ofLate], ofLate.length > 0, early, isFeasible);
  return [...ofEarly, ...ofLate];
}
