import type { Band } from '../quantity/band.js';

/** How nitrifiers grow and die. */
export interface NitrifierKinetics {
  /** Growth with ammonia in plenty, a day. */
  readonly growthPerDay: number;
  /** Total ammonia at which they work and grow at half their best, mg/L as N. */
  readonly halfMgPerL: number;
  /** Loss of capacity, a day; without ammonia all that happens. */
  readonly decayPerDay: number;
}

/**
 * Ammonia oxidisers of seawater at about 25 °C, from memory: growth that doubles in one to three days, half-saturation of 0.3
 * to 1 mg/L as N, capacity that halves in one to ten weeks without ammonia. One culture from brackish water (salinity 15, 25 °C)
 * had 0.86 a day and 0.78 mg/L (Helder & de Vries 1983, abstract): the half-saturation lies inside, the growth just above.
 */
export const NITRIFIER_KINETICS: { readonly [of in keyof NitrifierKinetics]: Band } = {
  growthPerDay: { low: 0.23, centre: 0.35, high: 0.69, basis: 'recalled' },
  halfMgPerL: { low: 0.3, centre: 0.6, high: 1, basis: 'recalled' },
  decayPerDay: { low: 0.01, centre: 0.03, high: 0.08, basis: 'recalled' },
};

/** The centres of {@link NITRIFIER_KINETICS}. */
export const CENTRAL_KINETICS: NitrifierKinetics = {
  growthPerDay: NITRIFIER_KINETICS.growthPerDay.centre,
  halfMgPerL: NITRIFIER_KINETICS.halfMgPerL.centre,
  decayPerDay: NITRIFIER_KINETICS.decayPerDay.centre,
};
