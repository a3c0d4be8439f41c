/**
 * Length of a fish of ordinary build that weighs as much: `(W / 0.0112)^(1 / 3.04)`, a and b of the body shape "fusiform /
 * normal" (Froese, Thorson & Reyes 2014). Makes eels and boxfishes comparable where weight decides.
 *
 * @param weightG grams, above 0
 * @returns cm total length
 * @example
 * weightEquivalentLength(61.166); // 16.957…
 */
export function weightEquivalentLength(weightG: number): number {
  return Math.exp(Math.log(weightG / 0.0112) / 3.04);
}
