/** What a long residence is worth in a contest, as a share of length (our choice: published contests put it under 20 %). */
export const RESIDENCE_WORTH: number = 0.15;

/** Days in which most of that worth is gained (our choice; familiarity builds in about 4 days and fades in about 10). */
export const RESIDENCE_DAYS: number = 10;

/**
 * Length that an animal brings to a contest: its weight-equivalent length, `x (1 + 0.15 (1 - e^(-days / 10)))` for residence,
 * `x` a factor of pugnacity.
 *
 * @param lengthCm weight-equivalent length, cm
 * @param daysResident days since it settled, or since the rock was last re-laid; 0 or more
 * @param pugnacityFactor 1 for an animal of ordinary temper
 * @example
 * effectiveLength(10, 30); // 11.42…
 */
export function effectiveLength(lengthCm: number, daysResident: number, pugnacityFactor = 1): number {
  return lengthCm * (1 + RESIDENCE_WORTH * (1 - Math.exp(-daysResident / RESIDENCE_DAYS))) * pugnacityFactor;
}
