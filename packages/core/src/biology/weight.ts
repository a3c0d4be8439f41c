/**
 * Weight from length: `a L^b`, in grams, with the a and b of a species, genus, family or body shape.
 *
 * @param lengthCm cm, above 0, of the length type that a was fitted to; total length unless stated
 * @param a grams at 1 cm
 * @param b exponent, 2.5 to 3.5 (Froese 2006)
 * @example
 * weight(15, 0.0186209, 2.99); // 61.166…
 */
export function weight(lengthCm: number, a: number, b: number): number {
  return a * Math.exp(b * Math.log(lengthCm));
}
