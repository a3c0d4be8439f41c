/** How fast the odds turn with the logarithm of the ratio of lengths (our choice: 1.25 gives 0.95, 1.05 gives 0.65). */
export const CONTEST_STEEPNESS: number = 13;

/**
 * Chance that one animal beats another: logistic of 13 times the logarithm of the ratio of their effective lengths, after
 * published contests in which 20 to 30 % more length wins and 5 % does not decide (Wazlavek & Figler).
 *
 * @param lengthCm effective length of the one, cm, above 0
 * @param otherCm effective length of the other, cm, above 0
 * @example
 * chanceOfWinning(12.5, 10); // 0.9478…
 */
export function chanceOfWinning(lengthCm: number, otherCm: number, steepness: number = CONTEST_STEEPNESS): number {
  return chanceAtLogRatio(Math.log(lengthCm / otherCm), steepness);
}

/**
 * The same by the natural logarithm of the ratio of lengths.
 *
 * @example
 * chanceAtLogRatio(0); // 0.5
 */
export const chanceAtLogRatio = (logRatio: number, steepness: number = CONTEST_STEEPNESS): number =>
  1 / (1 + Math.exp(-steepness * logRatio));

/**
 * The natural logarithm of the ratio of lengths from which the chance is so large: {@link chanceAtLogRatio} the other way round.
 *
 * @param chance 0 to 1
 * @returns -Infinity at 0, Infinity at 1, NaN beyond
 * @example
 * logRatioAtChance(0.95); // 0.2264…: about a quarter longer
 */
export const logRatioAtChance = (chance: number, steepness: number = CONTEST_STEEPNESS): number =>
  Math.log(chance / (1 - chance)) / steepness;
