/** Mass of NH3 that holds one gram of nitrogen: 17.031 over 14.007, the molar masses in g/mol. */
export const AMMONIA_PER_NITROGEN: number = 17.031 / 14.007;

/**
 * Ammonia given as nitrogen (N), in terms of ammonia (NH3). Tests and limits come in either; the two differ by 22 %.
 *
 * @param asNitrogen mg/L, or any other amount, as N
 * @example
 * asAmmonia(0.233); // 0.2833…
 */
export function asAmmonia(asNitrogen: number): number {
  return asNitrogen * AMMONIA_PER_NITROGEN;
}

/**
 * Ammonia given as NH3, in terms of nitrogen (N): the inverse of {@link asAmmonia}.
 *
 * @param asAmmonia mg/L, or any other amount, as NH3
 * @example
 * asNitrogen(0.25); // 0.2056…
 */
export function asNitrogen(asAmmonia: number): number {
  return asAmmonia / AMMONIA_PER_NITROGEN;
}
