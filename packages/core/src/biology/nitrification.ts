/**
 * The most ammonia that nitrifiers on a surface turn over in seawater at 24 °C, with ammonia in plenty: grams of nitrogen a day
 * and m2 (Nijhof & Bovendeur 1990, abstract; in fresh water 0.69).
 */
export const NITRIFICATION_PER_M2: number = 0.28;

/**
 * The most that a grown-in surface nitrifies, grams of nitrogen a day: `area x 0.28` unless another rate was measured.
 *
 * @param areaM2 of media with water flowing over it, m2
 * @param gramsPerM2Day grams of nitrogen a day and m2
 * @example
 * nitrificationOf(0.5); // 0.14
 */
export function nitrificationOf(areaM2: number, gramsPerM2Day: number = NITRIFICATION_PER_M2): number {
  return areaM2 * gramsPerM2Day;
}

/**
 * Grown-in surface that a load of ammonia needs at least, m2: the inverse of {@link nitrificationOf}.
 *
 * @param gramsPerDay total ammonia, grams of nitrogen a day
 * @param gramsPerM2Day grams of nitrogen a day and m2, above 0
 * @example
 * areaForLoad(0.0828); // 0.2957…
 */
export function areaForLoad(gramsPerDay: number, gramsPerM2Day: number = NITRIFICATION_PER_M2): number {
  return gramsPerDay / gramsPerM2Day;
}
