import { type AmmoniaTank, followAmmonia } from './ammonia-course.js';

/**
 * Days from the last step of load until total ammonia is back under a limit for good: 0 where it never exceeds the limit after
 * that step, Infinity where it still does at the end of the days followed. Follows the tank as `ammoniaCourse` does; the time
 * between two steps of integration is read off a straight line.
 *
 * @param limitMgPerL total ammonia, mg/L as N
 * @throws RangeError as `ammoniaCourse` does; also for a tank without a step of load in the days followed.
 * @example
 * settlingDays({ waterL: 200, loads: [{ day: 0, gramsPerDay: 0.08 }], capacityGramsPerDay: 0.001, days: 60 }, 0.5); // 25.59…
 */
export function settlingDays(tank: AmmoniaTank, limitMgPerL: number): number {
  let last = Number.NaN;
  for (const { day } of tank.loads) if (day < tank.days) last = Math.max(0, day);
  if (Number.isNaN(last)) throw new RangeError(`settlingDays: expected a load before day ${tank.days}, received none`);
  let settled = last;
  let dayBefore = 0;
  let before = 0;
  followAmmonia(tank, (day, mgPerL) => {
    if (day >= last) {
      if (mgPerL > limitMgPerL) settled = Number.POSITIVE_INFINITY;
      else if (settled === Number.POSITIVE_INFINITY) {
        settled = dayBefore + ((day - dayBefore) * (before - limitMgPerL)) / (before - mgPerL);
      }
    }
    dayBefore = day;
    before = mgPerL;
  });
  return settled - last;
}
