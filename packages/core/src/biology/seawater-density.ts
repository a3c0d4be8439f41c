import { temperature68 } from './temperature-68.js';

/**
 * Density of seawater at the surface, kg/m3 (EOS-80; Fofonoff & Millard 1983, UNESCO Technical Papers in Marine Science 44):
 * that of pure water, `+ A S + B S^1.5 + 4.8314e-4 S^2`, with A and B polynomials of temperature. For salinities of 0 to 42
 * and -2 to 40 °C; good to about 0.01 kg/m3.
 *
 * @param salinity practical salinity, 0 or more
 * @param temperatureCel °C, scale of 1990
 * @throws RangeError for a salinity below 0 or not a number.
 * @example
 * seawaterDensity(35, 25); // 1023.341…
 */
export function seawaterDensity(salinity: number, temperatureCel: number): number {
  if (!(salinity >= 0)) throw new RangeError(`seawaterDensity: expected a salinity of 0 or more, received ${salinity}`);
  const t = temperature68(temperatureCel);
  const pure = 999.842594 + t * (6.793952e-2 + t * (-9.09529e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
  const a = 8.24493e-1 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
  const b = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6);
  return pure + salinity * (a + b * Math.sqrt(salinity) + 4.8314e-4 * salinity);
}
