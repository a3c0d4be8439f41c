import { addBit, countBits, dropBit, lowestBit, wordsFor } from '../../packages/core/src/plan/best-set/bits.js';

/**
 * All sets of options without a conflict to which no option can be added, one at a time; each sorted. There can be 3^(n/3) of them (Moon and
 * Moser 1965, from memory), so that whoever asks has to stop somewhere.
 *
 * Cliques of the graph of what goes together, by Bron and Kerbosch (1973, "Algorithm 457", CACM 16:575), with the pivot that leaves
 * fewest branches (Tomita, Tanaka and Takahashi 2006, from memory). An option in conflict with itself is in no set.
 *
 * @param count Options are numbered from 0 to one less.
 *
 * @throws RangeError on numbers of no option.
 *
 * @example [...maximalSets(3, [[0, 1]])]; // [[0, 2], [1, 2]]
 */
export function* maximalSets(count: number, conflicts: Iterable<readonly [number, number]>): Generator<number[], void, undefined> {
  if (!(Number.isInteger(count) && count >= 0)) throw new RangeError(`maximalSets: expected a number of options, received ${count}`);
  const words = wordsFor(count);
  const together = new Int32Array(count * words);
  const candidates = new Int32Array(words);
  for (let option = 0; option < count; option += 1) {
    addBit(candidates, 0, option);
    for (let other = 0; other < count; other += 1) if (other !== option) addBit(together, option * words, other);
  }
  for (const [one, other] of conflicts) {
    for (const option of [one, other]) {
      if (!(Number.isInteger(option) && option >= 0 && option < count)) {
        throw new RangeError(`maximalSets: expected option numbers from 0 to ${count - 1}, received ${option}`);
      }
    }
    if (one === other) dropBit(candidates, 0, one);
    dropBit(together, one * words, other);
    dropBit(together, other * words, one);
  }
  yield* extend({ words, together }, [], candidates, new Int32Array(words));
}

interface Together {
  readonly words: number;
  /** What goes with option `one`, at `one * words`. */
  readonly together: Int32Array;
}

/** The maximal sets with all of `chosen` that are otherwise made of `candidates`; with those in `tried` they came up before. */
function* extend(
  graph: Together,
  chosen: readonly number[],
  candidates: Int32Array,
  tried: Int32Array,
): Generator<number[], void, undefined> {
  const pivot = pivotOf(graph, candidates, tried);
  if (pivot < 0) {
    yield [...chosen].sort((one, other) => one - other);
    return;
  }
  const { words, together } = graph;
  for (let word = 0; word < words; word += 1) {
    let branches = (candidates[word] ?? 0) & ~(together[pivot * words + word] ?? 0);
    for (; branches !== 0; branches &= branches - 1) {
      const option = (word << 5) + lowestBit(branches);
      const alongside = (set: Int32Array): Int32Array => set.map((bits, at) => bits & (together[option * words + at] ?? 0));
      yield* extend(graph, [...chosen, option], alongside(candidates), alongside(tried));
      dropBit(candidates, 0, option);
      addBit(tried, 0, option);
    }
  }
}

/** The option, candidate or tried, that goes with most candidates; -1 where there is none. */
function pivotOf({ words, together }: Together, candidates: Int32Array, tried: Int32Array): number {
  let pivot = -1;
  let most = -1;
  for (let word = 0; word < words; word += 1) {
    for (let bits = (candidates[word] ?? 0) | (tried[word] ?? 0); bits !== 0; bits &= bits - 1) {
      const option = (word << 5) + lowestBit(bits);
      let reach = 0;
      for (let at = 0; at < words; at += 1) reach += countBits((candidates[at] ?? 0) & (together[option * words + at] ?? 0));
      if (reach > most) {
        most = reach;
        pivot = option;
      }
    }
  }
  return pivot;
}
