import { temperature68 } from './temperature-68.js';

/** Conductivity of seawater of salinity 35 at 15 °C and no pressure, mS/cm (42.914 after Culkin & Smith 1980). */
export const CONDUCTIVITY_35: number = 42.914;

/**
 * Practical salinity (PSS-78) from the ratio of conductivity to that of seawater of salinity 35 at 15 °C and no pressure
 * (Fofonoff & Millard 1983, UNESCO Technical Papers in Marine Science 44). For salinities of 2 to 42 and -2 to 35 °C; below
 * 2 it drifts.
 *
 * @param ratio of conductivities, 0 or more
 * @param temperatureCel of the water measured, °C, scale of 1990
 * @param pressureDbar above that of the air, 0 at the surface
 * @throws RangeError for a ratio below 0 or not a number.
 * @example
 * salinityFromRatio(1, 15, 0); // 34.9967…
 */
export function salinityFromRatio(ratio: number, temperatureCel: number, pressureDbar = 0): number {
  if (!(ratio >= 0)) throw new RangeError(`salinityFromRatio: expected a ratio of conductivities of 0 or more, received ${ratio}`);
  const t = temperature68(temperatureCel);
  const p = pressureDbar;
  const underPressure =
    1 + (p * (2.07e-5 + p * (-6.37e-10 + p * 3.989e-15))) / (1 + t * (3.426e-2 + t * 4.464e-4) + (4.215e-1 - 3.107e-3 * t) * ratio);
  const ofStandard = 0.6766097 + t * (2.00564e-2 + t * (1.104259e-4 + t * (-6.9698e-7 + t * 1.0031e-9)));
  const x = Math.sqrt(ratio / (underPressure * ofStandard));
  const at15 = 0.008 + x * (-0.1692 + x * (25.3851 + x * (14.0941 + x * (-7.0261 + x * 2.7081))));
  const shift = 0.0005 + x * (-0.0056 + x * (-0.0066 + x * (-0.0375 + x * (0.0636 - x * 0.0144))));
  return at15 + ((t - 15) / (1 + 0.0162 * (t - 15))) * shift;
}

/**
 * Practical salinity from a conductivity that was not corrected for temperature; see {@link salinityFromRatio}.
 *
 * @param conductivity mS/cm, 0 or more, at the temperature of the water
 * @param temperatureCel of the water measured, °C, scale of 1990
 * @param pressureDbar above that of the air, 0 at the surface
 * @throws RangeError for a conductivity below 0 or not a number.
 * @example
 * salinityFromConductivity(53, 25); // 34.947…
 */
export function salinityFromConductivity(conductivity: number, temperatureCel: number, pressureDbar = 0): number {
  if (!(conductivity >= 0)) {
    throw new RangeError(`salinityFromConductivity: expected a conductivity of 0 mS/cm or more, received ${conductivity}`);
  }
  return salinityFromRatio(conductivity / CONDUCTIVITY_35, temperatureCel, pressureDbar);
}
