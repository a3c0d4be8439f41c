import type { Spread } from '@commensal/schema';
import { normalQuantile } from './normal-quantile.js';

/** z of the upper end of the central 80 %. */
const Z_OF_BAND = 1.2815515655446004;

/**
 * From a probability above 0 and below 1 to a value of what a study draws from; the place of a word in its list.
 *
 * - uniform: `low + u (high - low)`.
 * - normal: `mean + z sd`, z the quantile of the standard normal distribution.
 * - log-normal: its logarithms are normal, `low` and `high` their quantiles of 10 and 90 %.
 * - triangular: the inverse of its distribution function, root of a square on either side of the mode.
 * - empirical: straight lines between the values in order (Hyndman & Fan 1996, type 7).
 * - list, words: the first whose share, added up, lies above u. range: each step alike.
 *
 * @example
 * spreadQuantile({ kind: 'uniform', low: 3, high: 8 })(0.5); // 5.5
 */
export function spreadQuantile(spread: Spread): (u: number) => number {
  switch (spread.kind) {
    case 'uniform':
      return (u) => spread.low + u * (spread.high - spread.low);
    case 'normal':
      return (u) => spread.mean + normalQuantile(u) * spread.standardDeviation;
    case 'log-normal': {
      const { mean, deviation } = logNormalOf(spread.low, spread.high);
      return (u) => Math.exp(mean + normalQuantile(u) * deviation);
    }
    case 'triangular':
      return triangular(spread.low, spread.mode, spread.high);
    case 'empirical':
      return empirical([...spread.values].sort((a, b) => a - b));
    case 'list': {
      const { values } = spread;
      const place = placeByWeight(values.length, spread.weights);
      return (u) => values[place(u)] as number;
    }
    case 'words':
      return placeByWeight(spread.words.length, spread.weights);
    case 'range': {
      const values = valuesOfRange(spread.from, spread.to, spread.step);
      const place = placeByWeight(values.length, undefined);
      return (u) => values[place(u)] as number;
    }
  }
}

/** Mean and standard deviation of the logarithms of a log-normal distribution with this central 80 %. */
export const logNormalOf = (low: number, high: number): { mean: number; deviation: number } => ({
  mean: (Math.log(low) + Math.log(high)) / 2,
  deviation: (Math.log(high) - Math.log(low)) / (2 * Z_OF_BAND),
});

/**
 * The numbers of a range, both ends among them where the steps meet the last; a step that rounding puts just beyond it counts.
 *
 * @example
 * valuesOfRange(14, 42, 14); // [14, 28, 42]
 */
export function valuesOfRange(from: number, to: number, step: number): number[] {
  const steps = Math.floor((to - from) / step + 1e-9);
  return Array.from({ length: steps + 1 }, (_, at) => from + at * step);
}

/** The discrete values that a spread has; undefined for a distribution. Words stand for themselves by their places. */
export function valuesOf(spread: Spread): number[] | undefined {
  if (spread.kind === 'list') return [...spread.values];
  if (spread.kind === 'words') return spread.words.map((_, place) => place);
  return spread.kind === 'range' ? valuesOfRange(spread.from, spread.to, spread.step) : undefined;
}

function triangular(low: number, mode: number, high: number): (u: number) => number {
  const width = high - low;
  if (width === 0) return () => low;
  const turn = (mode - low) / width;
  return (u) => (u < turn ? low + Math.sqrt(u * width * (mode - low)) : high - Math.sqrt((1 - u) * width * (high - mode)));
}

function empirical(sorted: readonly number[]): (u: number) => number {
  const last = sorted.length - 1;
  return (u) => {
    const at = u * last;
    const below = Math.min(Math.floor(at), last);
    const low = sorted[below] as number;
    const high = sorted[Math.min(below + 1, last)] as number;
    return low + (at - below) * (high - low);
  };
}

function placeByWeight(values: number, weights: readonly number[] | undefined): (u: number) => number {
  if (weights === undefined) return (u) => Math.min(Math.floor(u * values), values - 1);
  const ends: number[] = [];
  let sum = 0;
  for (const weight of weights) {
    sum += weight;
    ends.push(sum);
  }
  return (u) => {
    const at = u * sum;
    const place = ends.findIndex((end) => at < end);
    return place < 0 ? values - 1 : place;
  };
}
