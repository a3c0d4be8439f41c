import { followAmmonia } from '../../biology/ammonia-course.js';
import { NITRIFIER_KINETICS, type NitrifierKinetics } from '../../biology/nitrifier-kinetics.js';
import { settledAmmonia } from '../../biology/settled-ammonia.js';
import type { Band } from '../../quantity/band.js';
import { together } from '../../quantity/log-errors.js';
import type { Stock } from '../../stock/stock.js';
import { cycledCapacity, filterCapacity } from './capacity.js';
import type { Loads } from './load.js';
import type { NitrogenOptions } from './options.js';

/** What the course of the ammonia hangs on, and which end of it is the worse. */
const WORSE = {
  load: 'high',
  growthPerDay: 'low',
  halfMgPerL: 'high',
  decayPerDay: 'high',
  filter: 'low',
  cycled: 'low',
} as const;

type Input = keyof typeof WORSE;

const INPUTS = Object.keys(WORSE) as readonly Input[];

/** The end of each input that is taken; the centre where none is named. */
type Ends = Partial<Record<Input, 'low' | 'high'>>;

/** A peak of total ammonia after a batch. */
export interface Peak {
  /** Total ammonia, mg/L as N. */
  readonly mgPerL: number;
  /** Day number, with parts of a day. */
  readonly day: number;
  /**
   * The doing of the batch: the ammonia rises after it goes in, and above the level at which nitrifiers with room to grow settle
   * under any load.
   */
  readonly isPassing: boolean;
}

/** What is followed: the loads, the start, the days of the batches. */
export interface Scene {
  /** Loads from the day of the first batch on, grams of nitrogen a day. */
  readonly steps: readonly { readonly day: number; readonly load: Band }[];
  /** The load that the tank carries before the first batch. */
  readonly carried: Band;
  readonly batchDays: readonly number[];
  readonly waterL: number;
  readonly filter: Band | undefined;
  readonly cycled: Band | undefined;
  /** Days from the finding that the tank is cycled to the start; below 0 where that is still to come. */
  readonly daysSinceCycled: number;
  readonly turnover: Band | undefined;
  readonly followDays: number;
}

/** Steps of integration a day: peaks come out within 6 % of those of hourly steps, and kinetics are known to a factor. */
const STEPS_PER_DAY = 6;

/** Nitrifiers of a tank that is not cycled yet, over those on the day when it is (our choice). */
const SEED = 0.01;

function sceneOf(stock: Stock, loads: Loads, batchDays: readonly number[], options: NitrogenOptions): Scene {
  const { tank } = stock;
  // Up to the first batch the tank is taken to have settled under what it carries.
  const startDay = batchDays[0] ?? stock.day;
  const carried = startDay > stock.day ? loads.settledOn(startDay - 1) : loads.carried;
  return {
    steps: loads.days.flatMap((day) => (day < startDay ? [] : [{ day, load: loads.on(day) }])),
    carried,
    batchDays,
    waterL: tank.waterL.centre,
    filter: filterCapacity(tank, options),
    cycled: tank.cycledDay === undefined ? undefined : cycledCapacity(tank, options),
    daysSinceCycled: startDay - (tank.cycledDay ?? startDay),
    turnover: tank.turnoverGPerDay,
    followDays: Math.ceil(options.followDays),
  };
}

/** The peaks of a scene, followed as they are asked for. */
export interface Course {
  readonly scene: Scene;
  /** Every input at its centre; with a batch and all after it so many days later. */
  readonly centre: () => readonly Peak[];
  readonly delayed: (delay: Delay) => readonly Peak[];
  /** Every input at its worse end at once. */
  readonly worstCorner: () => readonly Peak[];
  /** How far each peak reaches up, and down, in natural logarithms. */
  readonly up: () => readonly number[];
  readonly down: () => readonly number[];
}

interface Delay {
  readonly from: number;
  readonly days: number;
}

/** Undefined where it is not known what the nitrifiers can do at the start. */
export function courseOf(stock: Stock, loads: Loads, batchDays: readonly number[], options: NitrogenOptions): Course | undefined {
  const scene = sceneOf(stock, loads, batchDays, options);
  if (scene.carried.centre === 0 && scene.cycled === undefined && scene.turnover === undefined) return undefined;
  const centre = once(() => follow(scene, {}));
  const worstCorner = once(() => atCorner(scene, 'worse'));
  return {
    scene,
    centre,
    delayed: (delay) => follow(scene, {}, delay),
    worstCorner,
    up: once(() => reachOf(scene, 'worse', centre(), worstCorner())),
    down: once(() => reachOf(scene, 'better', centre(), atCorner(scene, 'better'))),
  };
}

function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

const atCorner = (scene: Scene, side: Side): Peak[] => follow(scene, Object.fromEntries(INPUTS.map((input) => [input, end(input, side)])));

/** Each input moved alone to its end, the errors taken together as independent ones, never beyond what all at once come to. */
function reachOf(scene: Scene, side: Side, centre: readonly Peak[], corner: readonly Peak[]): number[] {
  const matters = (input: Input): boolean =>
    (input !== 'filter' || scene.filter !== undefined) &&
    (input !== 'cycled' || (scene.cycled !== undefined && scene.turnover === undefined));
  const alone = INPUTS.filter(matters).map((input) => follow(scene, { [input]: end(input, side) }));
  return centre.map(({ mgPerL }, at) => {
    const distance = (peaks: readonly Peak[]): number => {
      const log = Math.log((peaks[at]?.mgPerL ?? mgPerL) / mgPerL);
      return Math.max(0, side === 'worse' ? log : -log);
    };
    return Math.min(together(...alone.map(distance)), distance(corner));
  });
}

type Side = 'worse' | 'better';

function end(input: Input, side: Side): 'low' | 'high' {
  return side === 'worse' ? WORSE[input] : WORSE[input] === 'low' ? 'high' : 'low';
}

/** In so many days a tank has settled: longer waits are followed no longer than that. */
const SETTLED_DAYS = 90;

function follow(scene: Scene, ends: Ends, delay?: Delay): Peak[] {
  const { steps } = scene;
  const read = (band: Band, input: Input): number => band[ends[input] ?? 'centre'];
  // Rations are those of the days as planned: where a batch is tried later, some weeks more of growth hardly matter.
  const days = steps.map(({ day }) => (delay !== undefined && day >= delay.from ? day + delay.days : day));
  const times = days.map(() => 0);
  for (let at = 1; at < days.length; at += 1) {
    times[at] = (times[at - 1] as number) + Math.min(SETTLED_DAYS, (days[at] as number) - (days[at - 1] as number));
  }
  const kinetics: NitrifierKinetics = {
    growthPerDay: read(NITRIFIER_KINETICS.growthPerDay, 'growthPerDay'),
    halfMgPerL: read(NITRIFIER_KINETICS.halfMgPerL, 'halfMgPerL'),
    decayPerDay: read(NITRIFIER_KINETICS.decayPerDay, 'decayPerDay'),
  };
  const holds = scene.filter === undefined ? Number.POSITIVE_INFINITY : read(scene.filter, 'filter');
  const start = startOf(scene, read, kinetics, holds);
  const atStep = scene.batchDays.map((batchDay) => steps.findIndex(({ day }) => day === batchDay));
  const windows = atStep.map((step) => times[step] as number);
  const peaks = windows.map((time) => ({ mgPerL: 0, time, before: Number.NaN }));
  const note = (peak: { mgPerL: number; time: number } | undefined, time: number, mgPerL: number): void => {
    if (peak === undefined || mgPerL <= peak.mgPerL) return;
    peak.mgPerL = mgPerL;
    peak.time = time;
  };
  let at = -1;
  followAmmonia(
    {
      waterL: scene.waterL,
      loads: steps.map(({ load }, step) => ({ day: times[step] as number, gramsPerDay: read(load, 'load') })),
      capacityGramsPerDay: start.capacityGramsPerDay,
      holdsGramsPerDay: holds,
      startMgPerL: start.mgPerL,
      days: (windows.at(-1) ?? 0) + scene.followDays,
      kinetics,
      stepsPerDay: STEPS_PER_DAY,
    },
    (time, mgPerL) => {
      // The moment a batch goes in still belongs to the one before.
      while (at + 1 < windows.length && time >= (windows[at + 1] as number)) {
        note(peaks[at], time, mgPerL);
        at += 1;
        (peaks[at] as { before: number }).before = mgPerL;
      }
      note(peaks[at], time, mgPerL);
    },
  );
  const dayOf = (time: number): number => {
    const step = times.filter((begins) => begins <= time).length - 1;
    return (days[step] as number) + time - (times[step] as number);
  };
  const settlesAt = (kinetics.halfMgPerL * kinetics.decayPerDay) / (kinetics.growthPerDay - kinetics.decayPerDay);
  return peaks.map(({ mgPerL, time, before }) => ({ mgPerL, day: dayOf(time), isPassing: mgPerL > RISE * Math.max(before, settlesAt) }));
}

/** Less than this is the settling of a tank, not the doing of a batch. */
const RISE = 1.01;

/** The tank as it stands: what the residents' load keeps alive, what was measured, what cycling left. */
function startOf(
  { carried, turnover, cycled, daysSinceCycled }: Scene,
  read: (band: Band, input: Input) => number,
  kinetics: NitrifierKinetics,
  holds: number,
): { capacityGramsPerDay: number; mgPerL: number } {
  const carriedG = read(carried, 'load');
  const settled = settledAmmonia(carriedG, holds, kinetics);
  // Beyond what the filter turns over nothing settles: the rise starts from clean water.
  const mgPerL = Number.isFinite(settled.mgPerL) ? settled.mgPerL : 0;
  if (turnover !== undefined) return { capacityGramsPerDay: Math.min(holds, read(turnover, 'filter')), mgPerL };
  const left = cycled === undefined ? 0 : leftOf(read(cycled, 'cycled'), carriedG, daysSinceCycled, kinetics);
  return { capacityGramsPerDay: Math.min(holds, Math.max(settled.capacityGramsPerDay, left)), mgPerL };
}

/** What is left of cycling: all where nothing is fed yet and the tank was kept going; else what is not fed dies off. */
function leftOf(capacity: number, carried: number, daysSinceCycled: number, { decayPerDay }: NitrifierKinetics): number {
  if (daysSinceCycled < 0) return capacity * SEED;
  return carried > 0 ? capacity * Math.exp(-decayPerDay * daysSinceCycled) : capacity;
}
