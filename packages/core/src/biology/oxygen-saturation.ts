/**
 * Oxygen in water that is in balance with moist air at one atmosphere, mg/L (Benson & Krause 1984):
 * `ln C = -139.34411 + 157570.1/T - 66423080/T^2 + 1.2438e10/T^3 - 8.621949e11/T^4 - S (0.017674 - 10.754/T + 2140.7/T^2)`,
 * T in kelvin. For 0 to 40 °C and salinities of 0 to 40.
 *
 * @param temperatureCel °C
 * @param salinity practical salinity
 * @example
 * oxygenSaturation(25, 35); // 6.7721…
 */
export function oxygenSaturation(temperatureCel: number, salinity: number): number {
  const inverse = 1 / (temperatureCel + 273.15);
  const fresh = -139.34411 + inverse * (157570.1 + inverse * (-66423080 + inverse * (1.2438e10 - inverse * 8.621949e11)));
  return Math.exp(fresh - salinity * (0.017674 + inverse * (-10.754 + inverse * 2140.7)));
}

/**
 * The same after Weiss (1970), for comparison; from 10 to 34 °C the two differ by up to 0.4 %. Weiss counts in mL/L of gas at
 * 0 °C and one atmosphere, of which one mL weighs 1.4276 mg. For -1 to 40 °C and salinities of 0 to 40.
 *
 * @param temperatureCel °C
 * @param salinity practical salinity
 * @example
 * oxygenSaturationWeiss(25, 35); // 6.7476…
 */
export function oxygenSaturationWeiss(temperatureCel: number, salinity: number): number {
  const hundreds = (temperatureCel + 273.15) / 100;
  const fresh = -173.4292 + 249.6339 / hundreds + 143.3483 * Math.log(hundreds) - 21.8492 * hundreds;
  return MG_PER_ML * Math.exp(fresh + salinity * (-0.033096 + hundreds * (0.014259 - 0.0017 * hundreds)));
}

/** Oxygen at 0 °C and one atmosphere. */
const MG_PER_ML = 1.4276;
