/**
 * Reef rock of the usual sort: grain density in kg/L (Acropora skeleton 2.781 to 2.873, aragonite 2.94; Bucher et al. 1998) and share of
 * pores (0.337 dead and 0.453 live patch reef, Crane & Burke 2007; 0.33 to 0.70 in coral, Bucher et al. 1998).
 */
export const REEF_ROCK = { grainDensity: 2.8, porosity: 0.45 } as const;

/**
 * Volume of rock to its outer faces, pores included, in litres: `mass / (grain density x (1 - porosity))`. Territories are
 * held on this envelope.
 *
 * @param massKg dry mass
 * @param grainDensity of the solid, kg/L; coral rock 2.7 to 2.9 (Bucher et al. 1998)
 * @param porosity share of the envelope that is pores; reef rock 0.33 to 0.60, cast or dense rock 0 to 0.2
 * @example
 * rockEnvelope(20, 2.8, 0.45); // 12.987…
 */
export function rockEnvelope(massKg: number, grainDensity: number, porosity: number): number {
  return massKg / (grainDensity * (1 - porosity));
}

/**
 * Water that rock takes the place of once its pores have filled, in litres: `mass / grain density`.
 *
 * @example
 * waterDisplaced(20, 2.8); // 7.1428…
 */
export function waterDisplaced(massKg: number, grainDensity: number): number {
  return massKg / grainDensity;
}
