import type { Band } from '../../quantity/band.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import type { Writing } from './writing.js';

export type BandName = 'length' | 'asymptote' | 'rate' | 'adult' | 'standard' | 'swallow' | 'depth' | 'defended';

/** The bands of an animal that runs over many scenarios read. */
const BANDS: Readonly<Record<BandName, (animal: StockAnimal) => Band | undefined>> = {
  length: ({ lengthCm }) => lengthCm,
  asymptote: ({ kind }) => kind.asymptoticCm,
  rate: ({ kind }) => kind.ratePerYear,
  adult: ({ kind }) => kind.adultCm,
  standard: ({ kind }) => kind.totalPerStandard,
  swallow: ({ kind }) => kind.swallow,
  depth: ({ kind }) => kind.depthPerTotal,
  defended: ({ kind }) => kind.defendedPerTotal,
};

/** The numbers of one band, animal by animal in the order of the stock; NaN where it is not known. */
export interface BandColumns {
  readonly low: Float64Array;
  readonly centre: Float64Array;
  readonly high: Float64Array;
}

/** Bands of all animals in columns, so that a scenario is read without going through objects. */
export interface Figures {
  readonly bands: Readonly<Record<BandName, BandColumns>>;
  /** Takes in what the values of the variables are in a scenario. */
  readonly read: (values: Float64Array, written: () => Stock) => void;
  /** Whether any of them varies. */
  readonly vary: boolean;
}

/** The figures of a stock that values are written into, of the bands named. */
export function figuresOf(stock: Stock, writing: Writing, names: readonly BandName[]): Figures {
  const { animals } = stock;
  const column = (): Float64Array => new Float64Array(animals.length).fill(Number.NaN);
  const empty = (): BandColumns => ({ low: column(), centre: column(), high: column() });
  const bands: Record<BandName, BandColumns> = {
    length: empty(),
    asymptote: empty(),
    rate: empty(),
    adult: empty(),
    standard: empty(),
    swallow: empty(),
    depth: empty(),
    defended: empty(),
  };
  const exact: { readonly to: BandColumns; readonly at: number; readonly variable: number }[] = [];
  const others: { readonly to: BandColumns; readonly at: number; readonly band: Band }[] = [];
  for (const name of names) {
    animals.forEach((animal, at) => {
      const band = BANDS[name](animal);
      if (band === undefined) return;
      const to = bands[name];
      copyBand(band, to, at);
      const variable = writing.exact.get(band);
      if (variable !== undefined) exact.push({ to, at, variable });
      else if (writing.slots.some(({ holder }) => holder === (band as unknown))) others.push({ to, at, band });
    });
  }
  return {
    bands,
    vary: exact.length + others.length > 0,
    read: (values, written) => {
      for (let index = 0; index < exact.length; index += 1) {
        const { to, at, variable } = exact[index] as (typeof exact)[number];
        const value = values[variable] as number;
        to.low[at] = value;
        to.centre[at] = value;
        to.high[at] = value;
      }
      if (others.length === 0) return;
      written();
      for (const { band, to, at } of others) copyBand(band, to, at);
    },
  };
}

function copyBand({ low, centre, high }: Band, to: BandColumns, at: number): void {
  to.low[at] = low;
  to.centre[at] = centre;
  to.high[at] = high;
}
