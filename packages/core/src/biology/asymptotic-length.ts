/**
 * Asymptotic length from the largest length on record (Froese & Binohlan 2000): `log10 Linf = 0.044 + 0.9841 log10 Lmax`,
 * both in cm. The logarithm is to base ten; with natural logarithms the result is several per cent too low.
 *
 * @example
 * asymptoticFromMaximum(11); // 11.717…
 */
export function asymptoticFromMaximum(maximumCm: number): number {
  return Math.exp(Math.LN10 * 0.044 + 0.9841 * Math.log(maximumCm));
}
