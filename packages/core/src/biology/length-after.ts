/**
 * Length of an animal some time after it measured `lengthCm` (von Bertalanffy growth in the form of Fabens 1965):
 * `L + (Linf - L)(1 - e^(-K t))`. An animal at or beyond the asymptote does not grow. Lengths in cm of one type.
 *
 * @param lengthCm length at the start, above 0
 * @param asymptoticCm Linf, in the same length type
 * @param ratePerYear K, a year
 * @param years time since, 0 or more
 * @example
 * lengthAfter(10, 42.5, 0.47, 1); // 22.187… (a lionfish of 10 cm a year on)
 */
export function lengthAfter(lengthCm: number, asymptoticCm: number, ratePerYear: number, years: number): number {
  return lengthCm >= asymptoticCm ? lengthCm : lengthShortOf(lengthCm, asymptoticCm, Math.exp(-ratePerYear * years));
}

/**
 * The same where it is known how much of the way to the asymptote is left, `e^(-K t)`: curves of one rate share that exponential.
 *
 * @example
 * lengthShortOf(10, 42.5, 0.5); // 26.25
 */
export function lengthShortOf(lengthCm: number, asymptoticCm: number, left: number): number {
  return lengthCm >= asymptoticCm ? lengthCm : asymptoticCm - (asymptoticCm - lengthCm) * left;
}
