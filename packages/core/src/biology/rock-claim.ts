/**
 * Litres of rock envelope that an animal claims at a length: the claim of an adult times the square of its share of adult
 * length (common practice, no source: territories grow with the animal, areas with the square of lengths).
 *
 * @example
 * rockClaim(8, 4, 8); // 2
 */
export function rockClaim(adultClaimL: number, lengthCm: number, adultCm: number): number {
  const share = lengthCm / adultCm;
  return adultClaimL * share * share;
}
