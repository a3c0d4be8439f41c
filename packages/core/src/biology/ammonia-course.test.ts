import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { type AmmoniaTank, ammoniaCourse, type LoadStep, STEPS_PER_DAY } from './ammonia-course.js';
import { CENTRAL_KINETICS, type NitrifierKinetics } from './nitrifier-kinetics.js';
import { settledAmmonia } from './settled-ammonia.js';
import { settlingDays } from './settling-days.js';

/** Nothing grows, nothing dies: capacity stays as it is. */
const FROZEN: NitrifierKinetics = { growthPerDay: 0, halfMgPerL: 0.6, decayPerDay: 0 };

const from = (gramsPerDay: number): LoadStep[] => [{ day: 0, gramsPerDay }];

/** A new tank of 200 L with a pinch of nitrifiers, stocked at once. */
const NEW: AmmoniaTank = { waterL: 200, loads: from(0.08), capacityGramsPerDay: 0.001, holdsGramsPerDay: 0.5, days: 60 };

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** Tanks in the range of which the error of a step is stated; half of them start settled. */
const tanks: fc.Arbitrary<AmmoniaTank> = fc
  .record({
    waterL: between(40, 1000),
    // mg/L a day; doubled at most.
    inflow: between(0.02, 2.5),
    more: between(1, 2),
    day: between(0.1, 40),
    room: between(1.05, 20),
    start: between(0.0005, 0.1),
    settled: fc.boolean(),
    kinetics: fc.record({ growthPerDay: between(0.23, 0.69), halfMgPerL: between(0.3, 1), decayPerDay: between(0.01, 0.08) }),
  })
  .map(({ waterL, inflow, more, day, room, start, settled, kinetics }) => {
    const load = (inflow * waterL) / 1000;
    const holdsGramsPerDay = load * room;
    const rest = settledAmmonia(load, holdsGramsPerDay, kinetics);
    return {
      waterL,
      loads: [...from(load), { day, gramsPerDay: load * more }],
      capacityGramsPerDay: settled ? rest.capacityGramsPerDay : Math.min(start, holdsGramsPerDay),
      holdsGramsPerDay,
      startMgPerL: settled ? rest.mgPerL : 0,
      days: 60,
      kinetics,
    };
  });

/** The classical fourth-order method with 2000 steps a day, written without regard to the other: ammonia at the end and its peak. */
function byRungeKutta(tank: AmmoniaTank): { readonly end: number; readonly peak: number } {
  const { growthPerDay, halfMgPerL, decayPerDay } = tank.kinetics ?? CENTRAL_KINETICS;
  const holds = tank.holdsGramsPerDay ?? Number.POSITIVE_INFINITY;
  const load = tank.loads[0]?.gramsPerDay ?? 0;
  const slope = (c: number, n: number): [number, number] => {
    const share = c / (halfMgPerL + c);
    const grows = n * (growthPerDay * share - decayPerDay);
    return [((load - n * share) * 1000) / tank.waterL, n >= holds && grows > 0 ? 0 : grows];
  };
  const h = 1 / 2000;
  let c = tank.startMgPerL ?? 0;
  let n = tank.capacityGramsPerDay;
  let peak = c;
  for (let step = 0; step < tank.days * 2000; step += 1) {
    const [c1, n1] = slope(c, n);
    const [c2, n2] = slope(c + (h / 2) * c1, n + (h / 2) * n1);
    const [c3, n3] = slope(c + (h / 2) * c2, n + (h / 2) * n2);
    const [c4, n4] = slope(c + h * c3, n + h * n3);
    c += (h / 6) * (c1 + 2 * c2 + 2 * c3 + c4);
    n = Math.min(holds, n + (h / 6) * (n1 + 2 * n2 + 2 * n3 + n4));
    peak = Math.max(peak, c);
  }
  return { end: c, peak };
}

const last = <T>(all: readonly T[]): T => all[all.length - 1] as T;

describe('ammoniaCourse, where the equations can be solved', () => {
  it('without nitrifiers ammonia rises by the load over the water', () => {
    const { course, peakDay } = ammoniaCourse({ ...NEW, capacityGramsPerDay: 0, days: 10 });
    // 0.08 g a day in 200 L are 0.4 mg/L a day. Twelve decimals: 240 sums are rounded.
    for (const { day, mgPerL } of course) expect(mgPerL).toBeCloseTo(0.4 * day, 12);
    expect(peakDay).toBe(10);
  });

  it('without a load, a capacity that does not change follows Michaelis and Menten', () => {
    const tank = { waterL: 100, loads: [], capacityGramsPerDay: 0.05, startMgPerL: 3, days: 20, kinetics: FROZEN };
    for (const { day, mgPerL } of ammoniaCourse(tank).course) {
      // K ln(c0 / c) + c0 - c = 1000 N t / V; to 0.1 % of the right-hand side: steps of an hour, second order.
      const turnedOver = 0.6 * Math.log(3 / mgPerL) + 3 - mgPerL;
      expect(Math.abs(turnedOver - 0.5 * day)).toBeLessThanOrEqual(0.001 * 0.5 * day);
    }
  });

  it('without a load ammonia decays to nothing, and nitrifiers after it at their own rate', () => {
    const { course } = ammoniaCourse({ ...NEW, loads: [], capacityGramsPerDay: 0.3, startMgPerL: 2, days: 300 });
    course.slice(1).forEach(({ mgPerL }, at) => {
      expect(mgPerL).toBeLessThan(course[at]?.mgPerL ?? 0);
    });
    expect(last(course).mgPerL).toBeLessThan(1e-9);
    const rate = Math.log((course[250]?.capacityGramsPerDay ?? 0) / (course[300]?.capacityGramsPerDay ?? 0)) / 50;
    expect(rate).toBeCloseTo(CENTRAL_KINETICS.decayPerDay, 9); // ammonia is gone: what it feeds is below 10^-9
  });

  it('without ammonia nothing happens to it', () => {
    const { course, peakMgPerL } = ammoniaCourse({ ...NEW, loads: [] });
    expect(peakMgPerL).toBe(0);
    expect(course.every(({ mgPerL, nitrifiedG }) => mgPerL === 0 && nitrifiedG === 0)).toBe(true);
  });

  it('a constant load on full media ends at K load / (H - load)', () => {
    const { course } = ammoniaCourse({ ...NEW, loads: from(0.25), days: 200 });
    // Half of what the media hold leaves the half-saturation. Nine decimals: what is left of the start has died away.
    expect(last(course).mgPerL).toBeCloseTo(0.6, 9);
    expect(last(course).capacityGramsPerDay).toBe(0.5);
  });

  it('a constant load on media with room ends at K d / (mu - d)', () => {
    const kinetics = { growthPerDay: 0.5, halfMgPerL: 0.6, decayPerDay: 0.1 };
    const { course } = ammoniaCourse({ ...NEW, holdsGramsPerDay: undefined, days: 400, kinetics });
    // 0.6 x 0.1 / 0.4 and 0.08 x 5. Nine decimals: the approach goes with the rate of decay, e^-40 by then.
    expect(last(course).mgPerL).toBeCloseTo(0.15, 9);
    expect(last(course).capacityGramsPerDay).toBeCloseTo(0.4, 9);
  });

  it('a load beyond what the media hold piles up', () => {
    const { course, peakDay } = ammoniaCourse({ ...NEW, loads: from(0.6), days: 400 });
    const before = course[399]?.mgPerL ?? Number.NaN;
    const daily = last(course).mgPerL - before;
    // 0.1 g a day in 200 L, and what nitrifiers leave undone that are not quite saturated: 2.5 mg/L a day times K / (K + c).
    expect(daily).toBeGreaterThan(0.5);
    expect(daily).toBeLessThan(0.5 + (2.5 * 0.6) / (0.6 + before));
    expect(peakDay).toBe(400);
  });

  it('what is settled stays settled', () => {
    fc.assert(
      fc.property(between(0.005, 1), between(1.05, 20), between(40, 1000), (load, room, waterL) => {
        const rest = settledAmmonia(load, load * room);
        const { course } = ammoniaCourse({
          waterL,
          loads: from(load),
          capacityGramsPerDay: rest.capacityGramsPerDay,
          holdsGramsPerDay: load * room,
          startMgPerL: rest.mgPerL,
          days: 60,
        });
        // A relative 10^-10: the state is a fixed point of the step, and 1440 steps are rounded.
        expect(Math.abs(last(course).mgPerL / rest.mgPerL - 1)).toBeLessThanOrEqual(1e-10);
      }),
      { numRuns: runs(60) },
    );
  });
});

describe('ammoniaCourse, always', () => {
  it('what comes in is nitrified or still there; nothing is negative, and the media are never over-full', () => {
    fc.assert(
      fc.property(tanks, (tank) => {
        const { course, peakMgPerL } = ammoniaCourse(tank);
        expect(course.map(({ day }) => day)).toEqual(Array.from({ length: tank.days + 1 }, (_, day) => day));
        for (const { day, mgPerL, capacityGramsPerDay, nitrifiedG } of course) {
          let added = 0;
          tank.loads.forEach((step, at) => {
            added += step.gramsPerDay * Math.max(0, Math.min(day, tank.loads[at + 1]?.day ?? day) - step.day);
          });
          const stored = ((mgPerL - (tank.startMgPerL ?? 0)) * tank.waterL) / 1000;
          // 10^-10 of all that is moved: 1440 sums are rounded.
          expect(Math.abs(added - nitrifiedG - stored)).toBeLessThanOrEqual(
            1e-10 * (added + ((tank.startMgPerL ?? 0) * tank.waterL) / 1000),
          );
          expect(mgPerL).toBeGreaterThanOrEqual(0);
          expect(mgPerL).toBeLessThanOrEqual(peakMgPerL);
          expect(capacityGramsPerDay).toBeGreaterThan(0);
          expect(capacityGramsPerDay).toBeLessThanOrEqual(tank.holdsGramsPerDay ?? 0);
        }
      }),
      { numRuns: runs(60) },
    );
  });

  it('hourly steps are within 0.2 % of the peak, and on every day within 1 % of it, of steps 64 times finer', () => {
    fc.assert(
      fc.property(tanks, (tank) => {
        const coarse = ammoniaCourse(tank);
        const fine = ammoniaCourse({ ...tank, stepsPerDay: 64 * STEPS_PER_DAY });
        // The worst of 3456 tanks at the corners of the range were 0.08 and 0.46 %.
        expect(Math.abs(coarse.peakMgPerL / fine.peakMgPerL - 1)).toBeLessThan(0.002);
        coarse.course.forEach(({ mgPerL }, day) => {
          expect(Math.abs(mgPerL - (fine.course[day]?.mgPerL ?? Number.NaN))).toBeLessThan(0.01 * fine.peakMgPerL);
        });
      }),
      { numRuns: runs(25) },
    );
  });

  it('half the step, a quarter of the error', () => {
    const end = (stepsPerDay: number): number => last(ammoniaCourse({ ...NEW, days: 15, stepsPerDay }).course).mgPerL;
    const exact = end(4096);
    const ratio = (end(16) - exact) / (end(32) - exact);
    // Between 3.5 and 4.5: what the third order adds at these steps.
    expect(ratio).toBeGreaterThan(3.5);
    expect(ratio).toBeLessThan(4.5);
  });

  it.each([
    { name: 'a new tank', tank: NEW },
    { name: 'a small tank with much rock', tank: { ...NEW, waterL: 50, capacityGramsPerDay: 0.01, holdsGramsPerDay: 2, startMgPerL: 1 } },
    { name: 'media that fill', tank: { ...NEW, loads: from(0.3), holdsGramsPerDay: 0.32 } },
  ])('agrees with a method of the fourth order: $name', ({ tank }) => {
    const other = byRungeKutta(tank);
    const { course, peakMgPerL } = ammoniaCourse(tank);
    // The errors stated: 0.2 % of the peak, 1 % of it on a day.
    expect(Math.abs(peakMgPerL / other.peak - 1)).toBeLessThan(0.002);
    expect(Math.abs(last(course).mgPerL - other.end)).toBeLessThan(0.01 * other.peak);
  });

  it('the same tank gives the same course, and is left as it was', () => {
    const tank: AmmoniaTank = Object.freeze({ ...NEW, loads: Object.freeze([...NEW.loads]) });
    expect(ammoniaCourse(tank)).toEqual(ammoniaCourse(tank));
  });

  it('a load that began before the start counts from the start, one after the end not at all, one in mid-day from then', () => {
    const plain = ammoniaCourse(NEW);
    expect(
      ammoniaCourse({
        ...NEW,
        loads: [
          { day: -30, gramsPerDay: 9 },
          { day: -2, gramsPerDay: 0.08 },
        ],
      }),
    ).toEqual(plain);
    expect(ammoniaCourse({ ...NEW, loads: [...from(0.08), { day: 60, gramsPerDay: 5 }] })).toEqual(plain);
    const late = ammoniaCourse({ ...NEW, capacityGramsPerDay: 0, loads: [{ day: 2.75, gramsPerDay: 0.08 }], days: 4 });
    // Twelve decimals: sums are rounded.
    expect(late.course.map(({ mgPerL }) => Number(mgPerL.toFixed(12)))).toEqual([0, 0, 0, 0.1, 0.5]);
  });

  it('no days give the start alone', () => {
    expect(ammoniaCourse({ ...NEW, startMgPerL: 0.3, days: 0 })).toEqual({
      peakMgPerL: 0.3,
      peakDay: 0,
      course: [{ day: 0, mgPerL: 0.3, capacityGramsPerDay: 0.001, nitrifiedG: 0 }],
    });
  });

  it('a new tank peaks after one to six weeks, whatever of the bands is true of its nitrifiers, and is then carried', () => {
    const peaks = [0.23, 0.35, 0.69].map((growthPerDay) =>
      ammoniaCourse({ ...NEW, days: 120, kinetics: { ...CENTRAL_KINETICS, growthPerDay } }),
    );
    for (const { peakDay, course } of peaks) {
      // The one to six weeks of FAO's glossary.
      expect(peakDay).toBeGreaterThan(7);
      expect(peakDay).toBeLessThan(42);
      expect(last(course).mgPerL).toBeLessThan(0.15);
    }
  });

  it.each([
    { what: 'water above 0 L', received: 0, wrong: { waterL: 0 } },
    { what: 'whole days from 0', received: 2.5, wrong: { days: 2.5 } },
    { what: 'whole steps a day from 1', received: 0, wrong: { stepsPerDay: 0 } },
    { what: 'ammonia of 0 mg/L or more', received: -1, wrong: { startMgPerL: -1 } },
    { what: 'a capacity from 0 to the 0.5 g a day that the media hold', received: 0.6, wrong: { capacityGramsPerDay: 0.6 } },
    { what: 'growth of 0 a day or more', received: -1, wrong: { kinetics: { ...CENTRAL_KINETICS, growthPerDay: -1 } } },
    { what: 'decay of 0 a day or more', received: Number.NaN, wrong: { kinetics: { ...CENTRAL_KINETICS, decayPerDay: Number.NaN } } },
    { what: 'half-saturation above 0 mg/L', received: 0, wrong: { kinetics: { ...CENTRAL_KINETICS, halfMgPerL: 0 } } },
    { what: 'a load later than day 0', received: 0, wrong: { loads: [...from(1), ...from(2)] } },
    { what: 'a load of 0 g a day or more', received: -1, wrong: { loads: from(-1) } },
  ])('throws: expected $what, received $received', ({ what, received, wrong }) => {
    expect(() => ammoniaCourse({ ...NEW, ...wrong })).toThrow(new RangeError(`ammoniaCourse: expected ${what}, received ${received}`));
  });
});

describe('settlingDays', () => {
  it('counts from the last step of load', () => {
    const { capacityGramsPerDay, mgPerL: startMgPerL } = settledAmmonia(0.04, 20);
    const settled = { ...NEW, capacityGramsPerDay, holdsGramsPerDay: 20, startMgPerL, days: 200 };
    // From 0.04 to 1 g a day, twice what the nitrifiers can do on the day.
    const at10 = settlingDays({ ...settled, loads: [...from(0.04), { day: 10, gramsPerDay: 1 }] }, 0.5);
    const at50 = settlingDays({ ...settled, loads: [...from(0.04), { day: 50, gramsPerDay: 1 }] }, 0.5);
    expect(at10).toBeGreaterThan(1);
    // Six decimals: the settled tank waits 40 days in the same state, to rounding.
    expect(at50).toBeCloseTo(at10, 6);
  });

  it('is 0 where the limit is never passed, and Infinity where it still is at the end', () => {
    expect(settlingDays(NEW, 100)).toBe(0);
    expect(settlingDays(NEW, 0.01)).toBe(Number.POSITIVE_INFINITY);
    expect(settlingDays({ ...NEW, loads: from(0.6), days: 30 }, 1)).toBe(Number.POSITIVE_INFINITY);
  });

  it('on that day ammonia is at the limit, and under it afterwards', () => {
    const days = settlingDays(NEW, 0.5);
    const { course } = ammoniaCourse(NEW);
    expect(days).toBeGreaterThan(7);
    expect(course[Math.floor(days)]?.mgPerL).toBeGreaterThan(0.5);
    for (const { mgPerL } of course.slice(Math.ceil(days))) expect(mgPerL).toBeLessThanOrEqual(0.5);
    // Without nitrifiers growing: K ln(c0 / c) + c0 - c = 1000 N t / V, to 0.1 % as for the course.
    const washed = {
      waterL: 100,
      loads: [{ day: -1, gramsPerDay: 0 }],
      capacityGramsPerDay: 0.05,
      startMgPerL: 3,
      days: 30,
      kinetics: FROZEN,
    };
    const exact = (0.6 * Math.log(3 / 0.5) + 2.5) / 0.5;
    expect(Math.abs(settlingDays(washed, 0.5) - exact)).toBeLessThan(0.001 * exact);
  });

  it('a higher limit is never reached later', () => {
    fc.assert(
      fc.property(tanks, between(0.01, 5), between(0.01, 5), (tank, one, other) => {
        expect(settlingDays(tank, Math.max(one, other))).toBeLessThanOrEqual(settlingDays(tank, Math.min(one, other)));
      }),
      { numRuns: runs(60) },
    );
  });

  it('throws without a load in the days followed', () => {
    const error = new RangeError('settlingDays: expected a load before day 60, received none');
    expect(() => settlingDays({ ...NEW, loads: [] }, 1)).toThrow(error);
    expect(() => settlingDays({ ...NEW, loads: [{ day: 60, gramsPerDay: 1 }] }, 1)).toThrow(error);
  });
});
