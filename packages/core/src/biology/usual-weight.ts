import { weight } from './weight.js';

/** A length-weight relationship that stands in where a species has none, `a L^b`, with the error of the weight it gives. */
export interface UsualBuild {
  /** Grams at 1 cm total length. */
  readonly a: number;
  readonly b: number;
  /** Half the central 80 % of the weight, in natural logarithms. */
  readonly logError: number;
}

/** 1.2816 standard deviations of log10 a hold the central 80 %. */
const errorOf = (deviationLog10: number): number => 1.2816 * deviationLog10 * Math.LN10;

const EEL_LIKE: UsualBuild = { a: 0.00102329, b: 3.06, logError: errorOf(0.175) };
const ELONGATED: UsualBuild = { a: 0.00389045, b: 3.12, logError: errorOf(0.171) };
const ORDINARY: UsualBuild = { a: 0.0112202, b: 3.04, logError: errorOf(0.173) };
const DEEP: UsualBuild = { a: 0.0199526, b: 3.01, logError: errorOf(0.175) };
const ANY: UsualBuild = { a: 0.01, b: 3.04, logError: errorOf(0.313) };

/**
 * The usual length-weight relationship of a body so deep (a and b by body shape: Froese, Thorson & Reyes 2014). Where one shape ends and
 * the next begins is our choice, after the depths and the median weights of families: morays under 0.08, gobies under 0.18, wrasses and
 * groupers under 0.34 of total length, surgeonfishes and damselfishes above.
 *
 * @param depthPerTotal body depth over total length; undefined where it is not known
 * @example
 * usualBuild(0.45).a; // 0.0199526
 */
export function usualBuild(depthPerTotal: number | undefined): UsualBuild {
  if (depthPerTotal === undefined) return ANY;
  if (depthPerTotal < 0.08) return EEL_LIKE;
  if (depthPerTotal < 0.18) return ELONGATED;
  return depthPerTotal < 0.34 ? ORDINARY : DEEP;
}

/**
 * Weight in grams of a body of usual build.
 *
 * @param lengthCm total length, above 0
 * @example
 * usualWeight(10, 0.45); // 20.417…
 */
export function usualWeight(lengthCm: number, depthPerTotal: number | undefined): number {
  const { a, b } = usualBuild(depthPerTotal);
  return weight(lengthCm, a, b);
}
