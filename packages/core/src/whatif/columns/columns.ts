import { lengthAfter } from '../../biology/length-after.js';
import type { Band } from '../../quantity/band.js';
import type { Stock, StockAnimal, StockTank } from '../../stock/stock.js';
import type { Writing } from '../scenario/writing.js';

export type AnimalBand = 'length' | 'asymptote' | 'rate' | 'adult' | 'standard' | 'swallow' | 'depth' | 'defended' | 'claim';
export type TankBand = 'water' | 'rock' | 'long' | 'wide' | 'gap';

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
  gap: ({ gapCm }) => gapCm,
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
 * All that is asked in each scenario are plain functions of plain objects, here and beside, as engines inline those and not what a closure of each stock is.
 */
export interface Columns extends Curves {
  /** The stock as it is laid out: what does not vary of it holds in every scenario. */
  readonly stock: Stock;
  /** A band of the animals, or of the tank, from now on brought up to date in each scenario. */
  readonly ofAnimals: (name: AnimalBand) => BandColumns;
  readonly ofTank: (name: TankBand) => BandColumns;
  /** Whether nothing in an object varies. */
  readonly isFixed: (holder: object | undefined) => boolean;
  /** Takes in what the values of the variables are in a scenario. */
  readonly read: (values: Float64Array) => void;
  /** The number of the scenario that was read last, from 1 up: figures of another are out of date. */
  scenario: number;
}

/** The bands that lengths follow from. */
export interface Curves {
  readonly length: BandColumns;
  readonly asymptote: BandColumns;
  readonly rate: BandColumns;
}

/** Expected total length of an animal in cm so many years after it was measured, as rules work it out; without a curve it stays as it is. */
export function lengthIn({ length, asymptote, rate }: Curves, animal: number, years: number): number {
  const start = length.centre[animal] as number;
  const end = asymptote.centre[animal] as number;
  const perYear = rate.centre[animal] as number;
  return Number.isNaN(end) || Number.isNaN(perYear) ? start : lengthAfter(start, end, perYear, years);
}

/** The columns of a stock that values are written into. */
export function columnsOf(stock: Stock, writing: Writing): Columns {
  const varying = holdersThatVary(stock, writing);
  const known = new Map<AnimalBand | TankBand, BandColumns>();
  const inColumns: BandInColumns[] = [];
  /** Whether a band is one number in every scenario. */
  const hasNoWidth = (band: Band | undefined): boolean =>
    band === undefined || (varying.has(band) ? writing.exact.has(band) : band.low === band.centre && band.high === band.centre);
  /** All columns in one piece, so that one loop brings them up to date. */
  const all = new Float64Array(3 * (Object.keys(OF_ANIMALS).length * stock.animals.length + Object.keys(OF_TANK).length)).fill(Number.NaN);
  let taken = 0;
  let readBands = reading([], all, writing);
  const columnsFor = (name: AnimalBand | TankBand, bands: readonly (Band | undefined)[]): BandColumns => {
    const there = known.get(name);
    if (there !== undefined) return there;
    const column = (): Float64Array => {
      taken += bands.length;
      return all.subarray(taken - bands.length, taken);
    };
    const centre = column();
    // Where no band has a width its ends are its centre: to bring up to date one column takes a third of the time.
    const to = bands.every(hasNoWidth) ? { low: centre, centre, high: centre } : { low: column(), centre, high: column() };
    known.set(name, to);
    bands.forEach((band, at) => {
      if (band === undefined) return;
      copyBand({ band, to, at });
      if (varying.has(band)) inColumns.push({ band, to, at });
    });
    readBands = reading(inColumns, all, writing);
    return to;
  };
  const ofAnimals = (name: AnimalBand): BandColumns => columnsFor(name, stock.animals.map(OF_ANIMALS[name]));
  const ofTank = (name: TankBand): BandColumns => columnsFor(name, [OF_TANK[name](stock.tank)]);

  const columns: Columns = {
    stock,
    ofAnimals,
    ofTank,
    isFixed: (holder) => holder === undefined || !varying.has(holder),
    read: (values) => {
      columns.scenario += 1;
      readBands(values);
    },
    scenario: 0,
    length: ofAnimals('length'),
    asymptote: ofAnimals('asymptote'),
    rate: ofAnimals('rate'),
  };
  return columns;
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

/** Brings bands that vary up to date: those that are the value of a variable straight or a multiple of it, the others by writing them. */
function reading(bands: readonly BandInColumns[], all: Float64Array, writing: Writing): (values: Float64Array) => void {
  const isOther = ({ band }: BandInColumns): boolean => !writing.exact.has(band) && !writing.multiples.has(band);
  const others = bands.filter(isOther);
  const multiples = bands.flatMap(({ band, to, at }) => {
    const multiple = writing.multiples.get(band);
    return multiple === undefined ? [] : [{ ...multiple, to, at }];
  });
  const exact = bands.flatMap(({ band, to, at }) => {
    const variable = writing.exact.get(band);
    const columns = new Set([to.low, to.centre, to.high]);
    return variable === undefined
      ? []
      : [...columns].map(({ byteOffset, BYTES_PER_ELEMENT }) => ({ place: byteOffset / BYTES_PER_ELEMENT + at, variable }));
  });
  const places = Int32Array.from(exact, ({ place }) => place);
  const variables = Int32Array.from(exact, ({ variable }) => variable);
  const writers = writing.writersOf(others.map(({ band }) => band));
  return (values) => {
    for (let index = 0; index < places.length; index += 1) all[places[index] as number] = values[variables[index] as number] as number;
    for (let index = 0; index < multiples.length; index += 1) {
      const { to, at, variable, ofOne } = multiples[index] as (typeof multiples)[number];
      const value = values[variable] as number;
      to.low[at] = value * ofOne.low;
      to.centre[at] = value * ofOne.centre;
      to.high[at] = value * ofOne.high;
    }
    for (let index = 0; index < writers.length; index += 1) (writers[index] as (typeof writers)[number])(values);
    for (let index = 0; index < others.length; index += 1) copyBand(others[index] as BandInColumns);
  };
}
