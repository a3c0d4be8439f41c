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
  return 1 / (1 + Math.exp(-steepness * Math.log(lengthCm / otherCm)));
}
