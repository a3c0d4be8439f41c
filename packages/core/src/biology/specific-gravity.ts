import { seawaterDensity } from './seawater-density.js';

/**
 * Specific gravity of seawater: its density over that of pure water at a reference temperature. The figure means nothing
 * without both temperatures: salinity 35 is 1.0264 at "25/25 °C" and 1.0234 at "25/4 °C".
 *
 * @param salinity practical salinity, 0 to 42
 * @param waterCel temperature of the seawater, °C
 * @param referenceCel temperature of the pure water, °C; printed on the hydrometer, often 25, 20, 15.56 (60 °F) or 4
 * @example
 * specificGravity(35, 25, 25); // 1.0263…
 */
export function specificGravity(salinity: number, waterCel: number, referenceCel: number): number {
  return seawaterDensity(salinity, waterCel) / seawaterDensity(0, referenceCel);
}

/** Salinity up to which a reading is looked up; EOS-80 is fitted to 42. */
const MOST_SALINITY = 50;

/**
 * Salinity from a hydrometer: the root of {@link specificGravity} between 0 and 50, by halving a bracket until it is narrower
 * than 1e-9. The swelling of the instrument is left out (under 0.0001 for 5 °C, from memory).
 *
 * @param reading specific gravity
 * @param waterCel temperature of the water it floats in, °C
 * @param referenceCel temperature that the scale refers to, °C
 * @throws RangeError for a reading below that of pure water or above that of salinity 50.
 * @example
 * salinityFromSpecificGravity(1.025, 25, 25); // 33.188…
 */
export function salinityFromSpecificGravity(reading: number, waterCel: number, referenceCel: number): number {
  const least = specificGravity(0, waterCel, referenceCel);
  const most = specificGravity(MOST_SALINITY, waterCel, referenceCel);
  if (!(reading >= least && reading <= most)) {
    throw new RangeError(`salinityFromSpecificGravity: expected a reading from ${least} to ${most}, received ${reading}`);
  }
  let low = 0;
  let high = MOST_SALINITY;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (specificGravity(middle, waterCel, referenceCel) < reading) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
