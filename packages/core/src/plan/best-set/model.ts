import { addBit, hasBit, lowestBit, wordsFor } from './bits.js';
import { cliquesOf, type Graph } from './graph.js';
import { byValue, greedySet } from './grow.js';
import { pricesOf } from './prices.js';
import type { SetProblem } from './problem.js';

/**
 * A problem laid out for the search. Options have places, by value less price, greatest first; options that can never be chosen have
 * none.
 */
export interface Model {
  readonly problem: SetProblem;
  readonly count: number;
  readonly words: number;
  /** The option at each place. */
  readonly optionAt: readonly number[];
  /** The place of each option; -1 where it has none. */
  readonly placeOf: Int32Array;
  readonly value: Float64Array;
  readonly price: Float64Array;
  /** Value less price. */
  readonly rest: Float64Array;
  /** What prices of a set may sum to. */
  readonly room: number;
  /** Conflicts by place. */
  readonly clash: Int32Array;
  readonly limits: readonly PlacedLimit[];
  /** By place: numbers of the limits that it uses, and of those that hold only with it. */
  readonly uses: readonly (readonly number[])[];
  readonly wakes: readonly (readonly number[])[];
  /** Rows of which one has to be chosen, each a set of places. */
  readonly musts: Int32Array;
  readonly mustCount: number;
  /** Sum of all values. */
  readonly total: number;
  /** No set has more options. */
  readonly depth: number;
  /** Values of sets are multiples of this; 0 where they are not whole or too large to be exact. */
  readonly grain: number;
  /** How far a sum of values or a bound may be off by rounding; 0 where values are whole. */
  readonly slack: number;
  /** A set to begin with. */
  readonly start: readonly number[] | undefined;
}

/** A limit by place. */
export interface PlacedLimit {
  readonly uses: Float64Array;
  /** With what rounding may be off. */
  readonly most: number;
  /** The place with which it holds; -1 where always. */
  readonly only: number;
  /** Places that use it, most first. */
  readonly byUse: Int32Array;
}

/** Above this, whole numbers are no longer exact, with room for a few terms more. */
const EXACT = 2251799813685248;

export function modelOf(problem: SetProblem, graph: Graph): Model {
  const { values, musts } = problem;
  const descending = byValue(problem);
  const cliques = cliquesOf(graph, descending);
  const start = greedySet(problem, graph);
  const worth = start === undefined ? 0 : start.reduce((sum, option) => sum + (values[option] ?? 0), 0);
  const prices = pricesOf(problem, cliques, worth);
  const rested = values.map((value, option) => value - (prices.price[option] ?? 0));
  const optionAt = descending
    .filter((option) => !hasBit(graph.clash, option * graph.words, option))
    .sort((one, other) => (rested[other] ?? 0) - (rested[one] ?? 0));
  const count = optionAt.length;
  const words = wordsFor(count);
  const placeOf = new Int32Array(values.length).fill(-1);
  optionAt.forEach((option, place) => {
    placeOf[option] = place;
  });
  const place = (option: number): number => placeOf[option] ?? -1;
  const limits = limitsAt(problem, optionAt, placeOf);
  const uses: number[][] = optionAt.map(() => []);
  const wakes: number[][] = optionAt.map(() => []);
  limits.forEach(({ byUse, only }, number) => {
    for (const at of byUse) uses[at]?.push(number);
    wakes[only]?.push(number);
  });
  const rows = new Int32Array(musts.length * words);
  musts.forEach((row, at) => {
    for (const option of row) if (place(option) >= 0) addBit(rows, at * words, place(option));
  });
  const total = values.reduce((sum, value) => sum + value, 0);
  const isExact = total < EXACT && values.every((value) => Number.isInteger(value));
  return {
    problem,
    count,
    words,
    optionAt,
    placeOf,
    value: Float64Array.from(optionAt, (option) => values[option] ?? 0),
    price: Float64Array.from(optionAt, (option) => prices.price[option] ?? 0),
    rest: Float64Array.from(optionAt, (option) => rested[option] ?? 0),
    room: prices.room,
    clash: clashAt(graph, optionAt, placeOf, words),
    limits,
    uses,
    wakes,
    musts: rows,
    mustCount: musts.length,
    total,
    depth: cliques.length,
    grain: isExact ? Math.max(1, values.reduce(commonDivisor, 0)) : 0,
    // A thousand terms at a relative error of 2^-53 each stay far below.
    slack: isExact ? 0 : (total + prices.room) * 1e-12,
    start,
  };
}

const commonDivisor = (one: number, other: number): number => (other === 0 ? one : commonDivisor(other, one % other));

function clashAt({ words: before, clash }: Graph, optionAt: readonly number[], placeOf: Int32Array, words: number): Int32Array {
  const placed = new Int32Array(optionAt.length * words);
  for (let at = 0; at < optionAt.length; at += 1) {
    const from = (optionAt[at] ?? 0) * before;
    for (let word = 0; word < before; word += 1) {
      for (let bits = clash[from + word] ?? 0; bits !== 0; bits &= bits - 1) {
        const place = placeOf[(word << 5) + lowestBit(bits)] ?? -1;
        if (place >= 0) addBit(placed, at * words, place);
      }
    }
  }
  return placed;
}

/** Limits that could be passed at all. */
function limitsAt({ limits }: SetProblem, optionAt: readonly number[], placeOf: Int32Array): PlacedLimit[] {
  return limits.flatMap(({ uses, most, only }) => {
    const placed = Float64Array.from(optionAt, (option) => uses[option] ?? 0);
    const total = placed.reduce((sum, use) => sum + use, 0);
    const slack = total * 1e-12;
    const at = only === undefined ? -1 : (placeOf[only] ?? -1);
    if (total + slack <= most || (only !== undefined && at < 0)) return [];
    const byUse = Int32Array.from(placed.keys())
      .filter((place) => (placed[place] ?? 0) > 0)
      .sort((one, other) => (placed[other] ?? 0) - (placed[one] ?? 0));
    const isWhole = total < EXACT && placed.every((use) => Number.isInteger(use));
    return [{ uses: placed, most: isWhole ? most : most + slack, only: at, byUse }];
  });
}
