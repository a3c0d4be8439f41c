import { usualBuild } from '../../biology/usual-weight.js';
import { weight } from '../../biology/weight.js';
import { shareOf } from '../../rules/feed.js';
import { lengthOn } from '../../rules/gape/index.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import type { StockAnimal } from '../../stock/stock.js';
import { lengthAtLeast, lengthAtMost, powerAtLeast, powerAtMost } from './bounds.js';
import { type Columns, lengthIn } from './columns.js';

/** Grams of food a day for lines of animals, each on a day, by the number that it got when it was added. */
export interface Grams {
  readonly exactly: (fed: number) => number;
  /** Bounds, save for rounding. */
  readonly atLeast: (fed: number) => number;
  readonly atMost: (fed: number) => number;
  /** Takes in what bounds start from in a scenario. */
  readonly read: () => void;
}

/** A line of animals on a day; its day undefined for the day of its length, when it is no longer than on any other. */
export interface FedOn {
  readonly animal: StockAnimal;
  readonly day: number | undefined;
}

/** How the weight of animals follows from their length: grams at 1 cm, and the exponent. */
interface Build {
  readonly a: number;
  readonly b: number;
}

/**
 * What is fed of these, as `feed` has it: those that are fed and whose size is known in some way. Undefined where something varies that is read as it is, or where
 * weights grow otherwise than bounds can follow.
 *
 * Bounds start from the length and the grams of the stock as it was laid out, and follow by how much lengths differ from those.
 */
export function gramsOf(columns: Columns, all: readonly FedOn[], feedShare: number): Grams | undefined {
  const { stock, ofAnimals } = columns;
  const isServed = ({ animal: { kind } }: FedOn): boolean => {
    const { size, feeding } = kind.record;
    return columns.isFixed(size?.weight) && columns.isFixed(feeding?.dailyFeed) && isBounded(size?.weight);
  };
  if (!all.every(isServed)) return undefined;

  const owns = all.map(({ animal }) => animal.kind.record.size?.weight);
  const isKnown = ({ animal }: FedOn): boolean => animal.lengthCm !== undefined;
  const [length, asymptote, rate] = [ofAnimals('length').centre, ofAnimals('asymptote').centre, ofAnimals('rate').centre];
  // What nothing reads need not be brought up to date.
  const adult = all.every(isKnown) ? length : ofAnimals('adult').centre;
  const depth = owns.includes(undefined) ? ofAnimals('depth').centre : length;
  const standard = owns.some((own) => own?.lengthType === 'SL') ? ofAnimals('standard').centre : length;

  const ats = Int32Array.from(all, ({ animal }) => stock.animals.indexOf(animal));
  const grown = Float64Array.from(all, ({ animal, day = animal.lengthDay }) => yearsSince(animal, day));
  const rations = Float64Array.from(all, ({ animal }) => animal.count * shareOf(animal, feedShare).centre);

  const buildOf = (fed: number): Build => {
    const own = owns[fed];
    if (own !== undefined) return own;
    const deep = depth[ats[fed] as number] as number;
    return usualBuild(Number.isNaN(deep) ? undefined : deep);
  };
  /** Total length over the length that the weight is fitted to. */
  const fitOf = (fed: number): number => {
    const perStandard = standard[ats[fed] as number] as number;
    return owns[fed]?.lengthType !== 'SL' || Number.isNaN(perStandard) ? 1 : perStandard;
  };

  const cmOf = (fed: number): number =>
    isKnown(all[fed] as FedOn) ? lengthIn(columns, ats[fed] as number, grown[fed] as number) : (adult[ats[fed] as number] as number);

  const knownCm = all.map(({ animal, day = animal.lengthDay }) =>
    animal.lengthCm === undefined ? (animal.kind.adultCm?.centre ?? Number.NaN) : lengthOn(animal, day),
  );
  const builds: (Build | undefined)[] = all.map(() => undefined);
  // By fours, as they are read: years of growth, less than none where no length is known; grams and what makes a length a ratio to the known one; the exponent.
  const facts = new Float64Array(4 * all.length);
  all.forEach((one, fed) => {
    facts[4 * fed] = !isKnown(one) ? -1 : one.day === undefined ? 0 : yearsSince(one.animal, one.day);
  });
  const load = (fed: number): void => {
    const build = buildOf(fed);
    const known = knownCm[fed] as number;
    if (builds[fed] !== build) facts[4 * fed + 1] = (rations[fed] as number) * weight(known, build.a, build.b);
    builds[fed] = build;
    facts[4 * fed + 2] = 1 / (known * fitOf(fed));
    facts[4 * fed + 3] = build.b;
  };
  for (let fed = 0; fed < all.length; fed += 1) load(fed);
  const loose = [...all.keys()].filter((fed) => owns[fed] === undefined || owns[fed]?.lengthType === 'SL');

  return {
    read: () => {
      for (let index = 0; index < loose.length; index += 1) load(loose[index] as number);
    },
    exactly: (fed) => {
      const { a, b } = buildOf(fed);
      return (rations[fed] as number) * weight(cmOf(fed) / fitOf(fed), a, b);
    },
    atLeast: (fed) => {
      const at = ats[fed] as number;
      const years = facts[4 * fed] as number;
      const cm =
        years < 0 ? (adult[at] as number) : lengthAtLeast(length[at] as number, asymptote[at] as number, rate[at] as number, years);
      return (facts[4 * fed + 1] as number) * powerAtLeast(cm * (facts[4 * fed + 2] as number), facts[4 * fed + 3] as number);
    },
    atMost: (fed) => {
      const at = ats[fed] as number;
      const years = facts[4 * fed] as number;
      const cm = years < 0 ? (adult[at] as number) : lengthAtMost(length[at] as number, asymptote[at] as number, rate[at] as number, years);
      return (facts[4 * fed + 1] as number) * powerAtMost(cm * (facts[4 * fed + 2] as number), facts[4 * fed + 3] as number);
    },
  };
}

const LEAST_EXPONENT = 2;
/** The greatest exponent that bounds hold for: weights grow with the cube of a length or nearly so. */
export const MOST_EXPONENT = 4;

const isBounded = (own: Build | undefined): boolean => own === undefined || (own.b >= LEAST_EXPONENT && own.b <= MOST_EXPONENT);
