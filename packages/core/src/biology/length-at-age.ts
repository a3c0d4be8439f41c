/**
 * Length at an age on a von Bertalanffy curve: `Linf (1 - e^(-K (t - t0)))`.
 *
 * @param years age
 * @param startYears t0, the age at which the curve has length 0; usually slightly negative
 * @example
 * lengthAtAge(20, 0.3, -0.2, 1); // 6.0464…
 */
export function lengthAtAge(asymptoticCm: number, ratePerYear: number, startYears: number, years: number): number {
  return asymptoticCm * (1 - Math.exp(-ratePerYear * (years - startYears)));
}

/**
 * Age at a length, the inverse of {@link lengthAtAge}; for lengths from 0 to below the asymptote.
 *
 * @throws RangeError for a length at or beyond the asymptote, or below 0.
 * @example
 * ageAtLength(17.71, 0.78, -0.46, 13.5); // 1.38188…
 */
export function ageAtLength(asymptoticCm: number, ratePerYear: number, startYears: number, lengthCm: number): number {
  if (!(lengthCm >= 0 && lengthCm < asymptoticCm)) {
    throw new RangeError(`ageAtLength: expected a length from 0 to below ${asymptoticCm} cm, received ${lengthCm}`);
  }
  return startYears - Math.log(1 - lengthCm / asymptoticCm) / ratePerYear;
}
