/**
 * Temperature on the practical scale of 1968, on which the equations of state and of salinity were fitted, from that of 1990,
 * which thermometers show today: `1.00024 t90` (Saunders 1990). At 25 °C the difference is 0.006 °C.
 *
 * @param temperatureCel °C, scale of 1990
 * @example
 * temperature68(25); // 25.006
 */
export function temperature68(temperatureCel: number): number {
  return 1.00024 * temperatureCel;
}
