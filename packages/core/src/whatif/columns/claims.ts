import { rockClaim } from '../../biology/rock-claim.js';
import type { Columns } from './columns.js';

/**
 * Litres of rock that one animal of a line claims at a place, as `rock-crowding` and refuges count them: lengths beyond adult size claim no more, and where the length
 * is not known the full claim stands. NaN where the claim is not known.
 */
export function claimsOn({ ofAnimals, animalOf, lengthOn, remembering }: Columns): (place: number) => number {
  const [claim, adult] = [ofAnimals('claim'), ofAnimals('adult')];
  return remembering((place) => {
    const at = animalOf(place);
    const full = claim.centre[at] as number;
    if (full === 0) return 0;
    const adultCm = adult.centre[at] as number;
    const length = Math.min(adultCm, lengthOn(place));
    return Number.isNaN(length) ? full : rockClaim(full, length, adultCm);
  });
}
