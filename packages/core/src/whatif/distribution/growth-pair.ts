import { logNormalOf } from './spread-quantile.js';

/** The central 80 % of a log-normal figure. */
export interface Spread80 {
  readonly low: number;
  readonly high: number;
}

/**
 * The growth rate that goes with an asymptotic length. Within a species, fish that grow larger grow more slowly, so that growth performance
 * `phi' = log10 K + 2 log10 Linf` stays put (Pauly & Munro 1984): the logarithm of K falls by `b` times what that of Linf rises, b = 2, or
 * less where the band of K is too narrow for that (the ratio of the two widths), and the rest of the band of K is its own. Both keep their bands: either is
 * log-normal with the central 80 % given.
 *
 * `zLength` is the standard normal value that the asymptotic length was drawn with, `zOwn` an independent one.
 *
 * @example
 * growthRateWith({ low: 9, high: 11 }, { low: 0.3, high: 0.6 })(0, 0); // 0.424264068712
 */
export function growthRateWith(asymptoticCm: Spread80, ratePerYear: Spread80): (zLength: number, zOwn: number) => number {
  const length = logNormalOf(asymptoticCm.low, asymptoticCm.high);
  const rate = logNormalOf(ratePerYear.low, ratePerYear.high);
  const slope = length.deviation === 0 ? 0 : Math.min(2, rate.deviation / length.deviation);
  const bound = slope * length.deviation;
  const own = Math.sqrt(Math.max(0, rate.deviation * rate.deviation - bound * bound));
  return (zLength, zOwn) => Math.exp(rate.mean - bound * zLength + own * zOwn);
}
