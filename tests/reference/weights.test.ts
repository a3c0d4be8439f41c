/** Weights from lengths against published coefficients. */
import { expect, it } from 'vitest';
import { weight } from '../../packages/core/src/biology/weight.js';

// a and b from Froese, Thorson & Reyes 2014 as served by FishBase (2018), the last from Schiettekatte et al. 2020; the weights were
// computed from them by an independent program, three decimals.
it.each([
  { species: 'Dascyllus aruanus', lengthCm: 6, a: 0.0218776, b: 2.98, grams: 4.559 },
  { species: 'Zebrasoma flavescens', lengthCm: 15, a: 0.0186209, b: 2.99, grams: 61.166 },
  { species: 'Pterois volitans', lengthCm: 25, a: 0.0112202, b: 3.09, grams: 234.226 },
  { species: 'Amphiprion ocellaris', lengthCm: 8, a: 0.0112202, b: 3.04, grams: 6.243 },
  { species: 'Zebrasoma scopas', lengthCm: 10, a: 0.02455, b: 2.98, grams: 23.445 },
])('$species of $lengthCm cm weighs $grams g', ({ lengthCm, a, b, grams }) => {
  // Half a unit of the last printed digit.
  expect(Math.abs(weight(lengthCm, a, b) - grams)).toBeLessThanOrEqual(0.0005);
});

// The body shapes of Froese, Thorson & Reyes 2014, two decimals.
it.each([
  { shape: 'eel-like', a: 0.00102329, b: 3.06, grams: 1.17 },
  { shape: 'elongated', a: 0.00389045, b: 3.12, grams: 5.13 },
  { shape: 'fusiform', a: 0.0112202, b: 3.04, grams: 12.3 },
  { shape: 'short and deep', a: 0.0199526, b: 3.01, grams: 20.42 },
  { shape: 'unknown', a: 0.01, b: 3.04, grams: 10.96 },
])('a fish of 10 cm and $shape shape weighs $grams g', ({ a, b, grams }) => {
  // Half a unit of the last printed digit, with room for binary fractions.
  expect(Math.abs(weight(10, a, b) - grams)).toBeLessThanOrEqual(0.005001);
});
