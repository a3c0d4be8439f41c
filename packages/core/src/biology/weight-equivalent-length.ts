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
  return Math.exp(logWeightEquivalentLength(Math.log(weightG)));
}

/**
 * The same in natural logarithms, from that of the weight: lengths that are compared need not be worked out.
 *
 * @example
 * logWeightEquivalentLength(Math.log(0.0112)); // 0: such a weight belongs to 1 cm
 */
export const logWeightEquivalentLength = (logWeight: number): number => (logWeight - LOG_A) / B;

/** a and b of that build. */
const LOG_A: number = Math.log(0.0112);
const B = 3.04;
