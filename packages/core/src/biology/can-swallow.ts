/** Longest prey over the standard length of the swallower: covers every fish among 86 found in stomachs (Dunic & Baum 2017). */
export const LONGEST_SHARE = 0.7;

/**
 * Whether a body passes a mouth: the prey is no deeper than the limit, and shorter than the share of the swallower's
 * standard length that is ever found in stomachs.
 *
 * @param predatorStandardCm standard length of the swallower
 * @param limitPerStandard its swallow limit over standard length
 * @param preyDepthCm the smaller of depth and width of the prey
 * @param preyTotalCm total length of the prey
 * @param longestShare longest prey over the swallower's standard length: 0.70 covers every item among 86 stomachs of reef
 *   fishes (greatest 0.62; Dunic & Baum 2017); Infinity for mouths and bellies that stretch
 * @example
 * canSwallow(12, 0.27, 1.9, 5); // true: 3.24 cm of limit for 1.9 cm of body, 5 cm long against 8.4
 */
export function canSwallow(
  predatorStandardCm: number,
  limitPerStandard: number,
  preyDepthCm: number,
  preyTotalCm: number,
  longestShare: number = LONGEST_SHARE,
): boolean {
  return preyDepthCm <= limitPerStandard * predatorStandardCm && preyTotalCm <= longestShare * predatorStandardCm;
}
