import { lengthAfter } from '../../biology/length-after.js';
import type { Band } from '../../quantity/band.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import type { Stock, StockAnimal, StockTank } from '../../stock/stock.js';
import type { Writing } from '../scenario/writing.js';

export type AnimalBand = 'length' | 'asymptote' | 'rate' | 'adult' | 'standard' | 'swallow' | 'depth' | 'defended' | 'claim';
export type TankBand = 'water' | 'rock' | 'long' | 'wide';

/** The bands that kernels read. */
const OF_ANIMALS: Readonly<Record<AnimalBand, (animal: StockAnimal) => Band | undefined>> = {
  length: ({ lengthCm }) => lengthCm,
  asymptote: ({ kind }) => kind.asymptoticCm,
  rate: ({ kind }) => kind.ratePerYear,
  adult: ({ kind }) => kind.adultCm,
  standard: ({ kind }) => kind.totalPerStandard,
  swallow: ({ kind }) => kind.swallow,
  depth: ({ kind }) => kind.depthPerTotal,
  defended: ({ kind }) => kind.defendedPerTotal,
  claim: ({ kind }) => kind.rockClaimL,
};
const OF_TANK: Readonly<Record<TankBand, (tank: StockTank) => Band | undefined>> = {
  water: ({ waterL }) => waterL,
  rock: ({ rockL }) => rockL,
  long: ({ lengthCm }) => lengthCm,
  wide: ({ widthCm }) => widthCm,
};

/** The numbers of one band, animal by animal in the order of the stock, or of the tank alone; NaN where it is not known. */
export interface BandColumns {
  readonly low: Float64Array;
  readonly centre: Float64Array;
  readonly high: Float64Array;
}

/** Whether a band is one number. */
export const isOne = ({ low, centre, high }: BandColumns, at: number): boolean => low[at] === centre[at] && high[at] === centre[at];

/**
 * What varies of a stock, in columns, so that a scenario is read without going through objects.
 *
 * An animal on a day is a place: places are numbered as they are first asked for, before scenarios run.
 */
export interface Columns {
  /** The stock as it is laid out: what does not vary of it holds in every scenario. */
  readonly stock: Stock;
  /** A band of the animals, or of the tank, from now on brought up to date in each scenario. */
  readonly ofAnimals: (name: AnimalBand) => BandColumns;
  readonly ofTank: (name: TankBand) => BandColumns;
  /** Whether nothing in an object varies. */
  readonly isFixed: (holder: object | undefined) => boolean;
  readonly placeOf: (animal: number, day: number) => number;
  /** The animal of a place. */
  readonly animalOf: (place: number) => number;
  /** Expected total length at a place, in cm; NaN where it is not known. */
  readonly lengthOn: (place: number) => number;
  /** A figure by place that is worked out at most once a scenario. */
  readonly remembering: (figure: (place: number) => number) => (place: number) => number;
  /** Takes in what the values of the variables are in a scenario. */
  readonly read: (values: Float64Array) => void;
}

/** The columns of a stock that values are written into. */
export function columnsOf(stock: Stock, writing: Writing): Columns {
  const varying = holdersThatVary(stock, writing);
  const known = new Map<AnimalBand | TankBand, BandColumns>();
  const inColumns: BandInColumns[] = [];
  let read = reading([], writing);
  /** Whether a band is one number in every scenario. */
  const hasNoWidth = (band: Band | undefined): boolean =>
    band === undefined || (varying.has(band) ? writing.exact.has(band) : band.low === band.centre && band.high === band.centre);
  const columnsFor = (name: AnimalBand | TankBand, bands: readonly (Band | undefined)[]): BandColumns => {
    const there = known.get(name);
    if (there !== undefined) return there;
    const column = (): Float64Array => new Float64Array(bands.length).fill(Number.NaN);
    const centre = column();
    // Where no band has a width its ends are its centre: to bring up to date one column takes a third of the time.
    const to = bands.every(hasNoWidth) ? { low: centre, centre, high: centre } : { low: column(), centre, high: column() };
    known.set(name, to);
    bands.forEach((band, at) => {
      if (band === undefined) return;
      copyBand({ band, to, at });
      if (varying.has(band)) inColumns.push({ band, to, at });
    });
    read = reading(inColumns, writing);
    return to;
  };
  const ofAnimals = (name: AnimalBand): BandColumns => columnsFor(name, stock.animals.map(OF_ANIMALS[name]));
  const ofTank = (name: TankBand): BandColumns => columnsFor(name, [OF_TANK[name](stock.tank)]);

  let scenario = 0;
  const placed: Place[] = [];
  let animalAt = new Int32Array(0);
  let yearsAt = new Float64Array(0);
  const growing: (() => void)[] = [];
  const placeOf = (animal: number, day: number): number => {
    const there = placed.findIndex((place) => place.animal === animal && place.day === day);
    if (there >= 0) return there;
    placed.push({ animal, day });
    animalAt = Int32Array.from(placed, (place) => place.animal);
    yearsAt = Float64Array.from(placed, (place) => yearsSince(stock.animals[place.animal] as StockAnimal, place.day));
    for (const grow of growing) grow();
    return placed.length - 1;
  };
  const remembering = (figure: (place: number) => number): ((place: number) => number) => {
    let figures = new Float64Array(placed.length);
    let workedOutIn = new Float64Array(placed.length);
    growing.push(() => {
      figures = new Float64Array(placed.length);
      workedOutIn = new Float64Array(placed.length);
    });
    return (place) => {
      if (workedOutIn[place] !== scenario) {
        figures[place] = figure(place);
        workedOutIn[place] = scenario;
      }
      return figures[place] as number;
    };
  };
  const [length, asymptote, rate] = [ofAnimals('length'), ofAnimals('asymptote'), ofAnimals('rate')];
  const lengthOn = remembering((place) => {
    const at = animalAt[place] as number;
    const start = length.centre[at] as number;
    const end = asymptote.centre[at] as number;
    const perYear = rate.centre[at] as number;
    // Without a curve an animal stays as it is.
    return Number.isNaN(end) || Number.isNaN(perYear) ? start : lengthAfter(start, end, perYear, yearsAt[place] as number);
  });
  return {
    stock,
    ofAnimals,
    ofTank,
    isFixed: (holder) => holder === undefined || !varying.has(holder),
    placeOf,
    animalOf: (place) => animalAt[place] as number,
    lengthOn,
    remembering,
    read: (values) => {
      scenario += 1;
      read(values);
    },
  };
}

interface Place {
  readonly animal: number;
  readonly day: number;
}

interface BandInColumns {
  readonly band: Band;
  readonly to: BandColumns;
  readonly at: number;
}

function copyBand({ band: { low, centre, high }, to, at }: BandInColumns): void {
  to.low[at] = low;
  to.centre[at] = centre;
  to.high[at] = high;
}

/** Every object in which something varies, near or far. */
function holdersThatVary(stock: Stock, { slots }: Writing): ReadonlySet<object> {
  const varying = new Set<object>([stock]);
  for (const { path } of slots) {
    let holder: unknown = stock;
    for (const key of path.slice(0, -1)) {
      holder = (holder as Readonly<Record<string, unknown>>)[key];
      varying.add(holder as object);
    }
  }
  return varying;
}

/** Brings bands that vary up to date: those that are the value of a variable straight, the others by writing them. */
function reading(bands: readonly BandInColumns[], writing: Writing): (values: Float64Array) => void {
  const others = bands.filter(({ band }) => !writing.exact.has(band));
  const exact = [...new Set(bands.map(({ to }) => to))].flatMap((to) => {
    const here = bands.filter((one) => one.to === to && writing.exact.has(one.band));
    const ats = Int32Array.from(here, ({ at }) => at);
    const variables = Int32Array.from(here, ({ band }) => writing.exact.get(band) as number);
    return [...new Set([to.low, to.centre, to.high])].map((column) => ({ column, ats, variables }));
  });
  const writers = writing.writersOf(others.map(({ band }) => band));
  return (values) => {
    for (let index = 0; index < exact.length; index += 1) {
      const { column, ats, variables } = exact[index] as (typeof exact)[number];
      for (let one = 0; one < ats.length; one += 1) column[ats[one] as number] = values[variables[one] as number] as number;
    }
    for (let index = 0; index < writers.length; index += 1) (writers[index] as (typeof writers)[number])(values);
    for (let index = 0; index < others.length; index += 1) copyBand(others[index] as BandInColumns);
  };
}
