import { CENTRAL_KINETICS, type NitrifierKinetics } from './nitrifier-kinetics.js';

/** The load from a day on, until the next step. */
export interface LoadStep {
  readonly day: number;
  /** Total ammonia of all animals together, grams of nitrogen a day. */
  readonly gramsPerDay: number;
}

/** A tank whose ammonia is followed. */
export interface AmmoniaTank {
  readonly waterL: number;
  /** In the order of their days; before the first there is no load. */
  readonly loads: readonly LoadStep[];
  /** What the nitrifiers could turn over at the start with ammonia in plenty, grams of nitrogen a day. Of none, none grow. */
  readonly capacityGramsPerDay: number;
  /** The most that the media can carry, grams of nitrogen a day; without it there is no bound. */
  readonly holdsGramsPerDay?: number | undefined;
  /** Total ammonia at the start, mg/L as N; 0 unless given. */
  readonly startMgPerL?: number | undefined;
  /** How long to follow, whole days. */
  readonly days: number;
  readonly kinetics?: NitrifierKinetics | undefined;
  /** Steps of integration a day, {@link STEPS_PER_DAY} unless given. */
  readonly stepsPerDay?: number | undefined;
}

/** The state at the beginning of a day. */
export interface AmmoniaDay {
  readonly day: number;
  /** Total ammonia, mg/L as N. */
  readonly mgPerL: number;
  readonly capacityGramsPerDay: number;
  /** Nitrogen nitrified since the start, grams. */
  readonly nitrifiedG: number;
}

/** How ammonia went. */
export interface AmmoniaCourse {
  /** Highest total ammonia, mg/L as N, and the day it was first reached, to a step of integration. */
  readonly peakMgPerL: number;
  readonly peakDay: number;
  /** Day 0 to the last. */
  readonly course: readonly AmmoniaDay[];
}

/** Steps of integration a day: hourly. */
export const STEPS_PER_DAY: number = 24;

/**
 * Total ammonia in a tank over time, as the nitrifiers follow the load. With ammonia c (mg/L as N), capacity N (grams a day),
 * water V (L) and `m = c / (K + c)`: `dc/dt = 1000 (load - N m) / V` and `dN/dt = N (mu m - d)`, N never above what the media
 * hold. Left out, and so on the safe side: water changes, algae, corals. Left out on the other side: nitrite, lack of oxygen,
 * dead animals, medicines.
 *
 * Steps of an hour, laid evenly between days and steps of load: N grows half a step, c moves a step at the turnover of its own
 * midpoint, N grows the other half. Second order; nothing turns negative, nitrogen is conserved, settled states stay. Against
 * steps 64 times finer the peak is off by less than 0.2 % and any day by less than 1 % of the peak (loads up to 5 mg/L a day, media
 * that hold up to 20 times the load). More water, less load or more capacity usually lower the peak, not always: diluted ammonia
 * feeds fewer nitrifiers, and the next step of load meets fewer.
 *
 * @throws RangeError for water, days, loads, capacities or kinetics that make no sense.
 * @example
 * ammoniaCourse({ waterL: 200, loads: [{ day: 0, gramsPerDay: 0.08 }], capacityGramsPerDay: 0.001, days: 60 }).peakMgPerL; // 5.951…
 */
export function ammoniaCourse(tank: AmmoniaTank): AmmoniaCourse {
  const course: AmmoniaDay[] = [];
  let peakMgPerL = Number.NEGATIVE_INFINITY;
  let peakDay = 0;
  followAmmonia(tank, (day, mgPerL, capacityGramsPerDay, nitrifiedG) => {
    if (mgPerL > peakMgPerL) {
      peakMgPerL = mgPerL;
      peakDay = day;
    }
    if (day === course.length) course.push({ day, mgPerL, capacityGramsPerDay, nitrifiedG });
  });
  return { peakMgPerL, peakDay, course };
}

/** Calls `visit` at day 0 and after every step of integration; whole days are met exactly. */
export function followAmmonia(
  tank: AmmoniaTank,
  visit: (day: number, mgPerL: number, capacityGramsPerDay: number, nitrifiedG: number) => void,
): void {
  const { waterL, loads, days, stepsPerDay = STEPS_PER_DAY } = tank;
  const holds = tank.holdsGramsPerDay ?? Number.POSITIVE_INFINITY;
  const { growthPerDay, halfMgPerL, decayPerDay } = tank.kinetics ?? CENTRAL_KINETICS;
  let mgPerL = tank.startMgPerL ?? 0;
  let capacity = tank.capacityGramsPerDay;
  expected('water above 0 L', waterL, waterL > 0 && waterL < Number.POSITIVE_INFINITY);
  expected('whole days from 0', days, Number.isSafeInteger(days) && days >= 0);
  expected('whole steps a day from 1', stepsPerDay, Number.isSafeInteger(stepsPerDay) && stepsPerDay >= 1);
  expected('ammonia of 0 mg/L or more', mgPerL, mgPerL >= 0 && mgPerL < Number.POSITIVE_INFINITY);
  expected(
    `a capacity from 0 to the ${holds} g a day that the media hold`,
    capacity,
    capacity >= 0 && capacity <= holds && capacity < Number.POSITIVE_INFINITY,
  );
  expected('growth of 0 a day or more', growthPerDay, growthPerDay >= 0 && growthPerDay < Number.POSITIVE_INFINITY);
  expected('decay of 0 a day or more', decayPerDay, decayPerDay >= 0 && decayPerDay < Number.POSITIVE_INFINITY);
  expected('half-saturation above 0 mg/L', halfMgPerL, halfMgPerL > 0 && halfMgPerL < Number.POSITIVE_INFINITY);
  let before = Number.NEGATIVE_INFINITY;
  for (const { day, gramsPerDay } of loads) {
    expected(`a load later than day ${before}`, day, day > before);
    expected('a load of 0 g a day or more', gramsPerDay, gramsPerDay >= 0 && gramsPerDay < Number.POSITIVE_INFINITY);
    before = day;
  }

  let nitrifiedG = 0;
  let load = 0;
  let next = 0;
  let from = 0;
  // What capacity grows by in half a step; the second half of one step and the first of the next share it.
  const grown = (length: number): number => Math.exp(((growthPerDay * mgPerL) / (halfMgPerL + mgPerL) - decayPerDay) * (length / 2));
  visit(0, mgPerL, capacity, nitrifiedG);
  while (from < days) {
    for (let step = loads[next]; step !== undefined && step.day <= from; step = loads[next]) {
      load = step.gramsPerDay;
      next += 1;
    }
    const to = Math.min(Math.floor(from) + 1, loads[next]?.day ?? Number.POSITIVE_INFINITY);
    const steps = Math.ceil((to - from) * stepsPerDay);
    const length = (to - from) / steps;
    let factor = grown(length);
    for (let step = 1; step <= steps; step += 1) {
      capacity = Math.min(holds, capacity * factor);
      // Turnover a day of ammonia at its midpoint; over the step it is a constant, for which the course is an exponential.
      const turnover = (1000 * capacity) / waterL;
      const inflow = (1000 * load) / waterL;
      const midpoint = relaxed(mgPerL, inflow, turnover / (halfMgPerL + mgPerL), length / 2);
      const after = relaxed(mgPerL, inflow, turnover / (halfMgPerL + midpoint), length);
      nitrifiedG += load * length + ((mgPerL - after) * waterL) / 1000;
      mgPerL = after;
      factor = grown(length);
      capacity = Math.min(holds, capacity * factor);
      visit(step === steps ? to : from + step * length, mgPerL, capacity, nitrifiedG);
    }
    from = to;
  }
}

/** `dc/dt = inflow - rate c` after some days. */
function relaxed(start: number, inflow: number, rate: number, days: number): number {
  const exponent = rate * days;
  // Never below -1, so that nothing turns negative.
  const change = Math.expm1(-exponent);
  return start * (1 + change) + (exponent > 0 ? (inflow * -change) / rate : inflow * days);
}

function expected(what: string, received: number, holds: boolean): void {
  if (!holds) throw new RangeError(`ammoniaCourse: expected ${what}, received ${received}`);
}
