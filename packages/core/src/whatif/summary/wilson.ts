import { normalQuantile } from '../distribution/normal-quantile.js';

/** A share of trials with the ends of its interval. */
export interface ShareInterval {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * A share with its score interval without continuity correction (Wilson 1927; method 3 of Newcombe 1998, Statistics in Medicine 17: 857-872):
 * `(p + z^2/2n -+ z sqrt(p (1 - p)/n + z^2/4n^2)) / (1 + z^2/n)`. Without trials it is anything from 0 to 1, and the share is not a number.
 *
 * @throws RangeError for counts that are not whole, or more successes than trials.
 * @example
 * wilson(81, 263).low; // 0.255288519878
 */
export function wilson(successes: number, trials: number, confidence = 0.95): ShareInterval {
  if (!Number.isInteger(successes) || !Number.isInteger(trials) || successes < 0 || successes > trials) {
    throw new RangeError(`wilson: expected whole numbers, no more successes than trials, received ${successes} of ${trials}`);
  }
  if (trials === 0) return { share: Number.NaN, low: 0, high: 1 };
  const z = normalQuantile(0.5 + confidence / 2);
  const share = successes / trials;
  const weight = (z * z) / trials;
  const centre = share + weight / 2;
  const half = z * Math.sqrt((share * (1 - share)) / trials + weight / (4 * trials));
  // What rounding puts beyond the ends is the end.
  return {
    share,
    low: successes === 0 ? 0 : Math.max(0, (centre - half) / (1 + weight)),
    high: successes === trials ? 1 : Math.min(1, (centre + half) / (1 + weight)),
  };
}
