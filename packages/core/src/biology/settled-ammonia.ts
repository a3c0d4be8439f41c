import { CENTRAL_KINETICS, type NitrifierKinetics } from './nitrifier-kinetics.js';

/** Where a tank ends up under one load for ever. */
export interface SettledAmmonia {
  /** Total ammonia, mg/L as N; Infinity where the load cannot be carried. */
  readonly mgPerL: number;
  /** What the nitrifiers could turn over with ammonia in plenty, grams of nitrogen a day. */
  readonly capacityGramsPerDay: number;
}

/**
 * The settled state under a constant load, in closed form, of the equations of `ammoniaCourse`. With room left on the
 * media, growth balances decay at `c = K d / (mu - d)`, whatever the load, and capacity is `load mu / d`; with the media full
 * (capacity H), `c = K load / (H - load)`. Serves as the start of a tank that has carried its residents for long.
 *
 * @param gramsPerDay load of total ammonia, grams of nitrogen a day
 * @param holdsGramsPerDay capacity of media that are full of nitrifiers, grams of nitrogen a day
 * @example
 * settledAmmonia(0.07, 0.14).mgPerL; // 0.6
 */
export function settledAmmonia(
  gramsPerDay: number,
  holdsGramsPerDay: number = Number.POSITIVE_INFINITY,
  kinetics: NitrifierKinetics = CENTRAL_KINETICS,
): SettledAmmonia {
  const { growthPerDay, halfMgPerL, decayPerDay } = kinetics;
  if (gramsPerDay <= 0) return { mgPerL: 0, capacityGramsPerDay: 0 };
  // Nitrifiers that die faster than they can grow vanish.
  if (growthPerDay <= decayPerDay) return { mgPerL: Number.POSITIVE_INFINITY, capacityGramsPerDay: 0 };
  if (gramsPerDay >= holdsGramsPerDay) return { mgPerL: Number.POSITIVE_INFINITY, capacityGramsPerDay: holdsGramsPerDay };
  const free = (gramsPerDay * growthPerDay) / decayPerDay;
  return free <= holdsGramsPerDay
    ? { mgPerL: (halfMgPerL * decayPerDay) / (growthPerDay - decayPerDay), capacityGramsPerDay: free }
    : { mgPerL: (halfMgPerL * gramsPerDay) / (holdsGramsPerDay - gramsPerDay), capacityGramsPerDay: holdsGramsPerDay };
}
