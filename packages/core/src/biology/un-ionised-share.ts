/**
 * Share of total ammonia in seawater that is un-ionised (NH3), the form that harms: `1 / (1 + 10^(pKa - pH))` with
 * `pKa = 10.0423 - 0.0315536 t + 0.003071 S` (Bell et al. 2007, after Johansson & Wedborg, who measured at 5 to 25 °C and
 * salinities of 5 to 40). The same share holds for amounts as N and as NH3. Within 1.8 % of the table of
 * Bower & Bidwell (1978), its rounding apart.
 *
 * @param pH as a probe calibrated in ordinary (NBS) buffers shows it
 * @param temperatureCel °C; above 25 the line is prolonged
 * @param salinity practical salinity; for fresh water use {@link unIonisedShareFresh}
 * @example
 * unIonisedShare(8.2, 26, 35); // 0.0691…
 */
export function unIonisedShare(pH: number, temperatureCel: number, salinity: number): number {
  return shareAt(10.0423 - 0.0315536 * temperatureCel + 0.003071 * salinity, pH);
}

/**
 * Share of total ammonia in fresh water that is un-ionised: `1 / (1 + 10^(pKa - pH))` with `pKa = 0.09018 + 2729.92 / T`, T in
 * kelvin, 0 to 50 °C (Emerson et al. 1975). For freshwater dips and for checks; in seawater the share is smaller.
 *
 * @param temperatureCel °C
 * @example
 * unIonisedShareFresh(8, 24); // 0.0501…
 */
export function unIonisedShareFresh(pH: number, temperatureCel: number): number {
  return shareAt(0.09018 + 2729.92 / (temperatureCel + 273.15), pH);
}

function shareAt(pKa: number, pH: number): number {
  return 1 / (1 + Math.exp(Math.LN10 * (pKa - pH)));
}
