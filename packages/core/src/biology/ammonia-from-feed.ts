/**
 * Total ammonia nitrogen made from one gram of protein eaten: 0.16 g of nitrogen in it, of which 0.80 is taken up, 0.80 of that
 * given off, and 0.90 of that as ammonia (Timmons, after a second-hand quotation; the meaning of the factors is from memory).
 */
export const AMMONIA_PER_PROTEIN: number = 0.092;

/**
 * Total ammonia that feeding makes, grams of nitrogen a day: `feed x protein x 0.092`.
 *
 * @param feedGramsPerDay as fed; frozen food with its water
 * @param proteinShare of the food as fed, 0 to 1; dry food about 0.45, frozen food 0.08 to 0.12 (the latter from memory)
 * @throws RangeError for a share below 0 or above 1, such as a percentage.
 * @example
 * ammoniaFromFeed(2, 0.45); // 0.0828
 */
export function ammoniaFromFeed(feedGramsPerDay: number, proteinShare: number): number {
  if (!(proteinShare >= 0 && proteinShare <= 1)) {
    throw new RangeError(`ammoniaFromFeed: expected a share of protein from 0 to 1, received ${proteinShare}`);
  }
  return feedGramsPerDay * proteinShare * AMMONIA_PER_PROTEIN;
}
