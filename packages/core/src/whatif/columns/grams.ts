import { weight } from '../../biology/weight.js';
import { shareOf } from '../../rules/feed.js';
import { lengthOn } from '../../rules/gape/index.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import type { StockAnimal } from '../../stock/stock.js';
import { lengthAtLeast, lengthAtMost, powerAtLeast, powerAtMost } from './bounds.js';
import { type Columns, lengthIn } from './columns.js';
import { usualBuildAt } from './places.js';

/** Grams of food a day for lines of animals, each on a day, by the number that it got when it was added. */
export interface Grams {
  readonly columns: Columns;
  /** Places among the animals, years of growth by the day, and grams for each gram of animal. */
  readonly ats: Int32Array;
  readonly grown: Float64Array;
  readonly rations: Float64Array;
  /** Undefined for those without figures of their own. */
  readonly owns: readonly (OwnBuild | undefined)[];
  readonly isByLength: Uint8Array;
  readonly length: Float64Array;
  readonly asymptote: Float64Array;
  readonly rate: Float64Array;
  readonly adult: Float64Array;
  readonly depth: Float64Array;
  readonly standard: Float64Array;
  /** What bounds start from: the length in the stock as it was laid out, how weight follows from it, what both come to, one over the length as weight is fitted to it, and the exponent. */
  readonly knownCm: Float64Array;
  readonly builds: (Build | undefined)[];
  readonly knownG: Float64Array;
  readonly perKnown: Float64Array;
  readonly exponent: Float64Array;
  /** Whether that may be another in each scenario, and the one that it was taken in for. */
  readonly isLoose: Uint8Array;
  readonly loadedIn: Float64Array;
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

type OwnBuild = Build & { readonly lengthType?: string };

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

  const room = (): Float64Array => new Float64Array(all.length);
  const grams: Grams = {
    columns,
    ats: Int32Array.from(all, ({ animal }) => stock.animals.indexOf(animal)),
    grown: Float64Array.from(all, ({ animal, day = animal.lengthDay }) => yearsSince(animal, day)),
    rations: Float64Array.from(all, ({ animal }) => animal.count * shareOf(animal, feedShare).centre),
    owns,
    isByLength: Uint8Array.from(all, (one) => (isKnown(one) ? 1 : 0)),
    length,
    asymptote,
    rate,
    adult,
    depth,
    standard,
    knownCm: Float64Array.from(all, ({ animal, day = animal.lengthDay }) =>
      animal.lengthCm === undefined ? (animal.kind.adultCm?.centre ?? Number.NaN) : lengthOn(animal, day),
    ),
    builds: all.map(() => undefined),
    knownG: room(),
    perKnown: room(),
    exponent: room(),
    isLoose: Uint8Array.from(owns, (own) => (own === undefined || own.lengthType === 'SL' ? 1 : 0)),
    loadedIn: room(),
  };
  for (let fed = 0; fed < all.length; fed += 1) load(grams, fed);
  return grams;
}

function buildOf({ owns, depth, ats }: Grams, fed: number): Build {
  const own = owns[fed];
  if (own !== undefined) return own;
  return usualBuildAt(depth[ats[fed] as number] as number);
}

/** Total length over the length that the weight is fitted to. */
function fitOf({ owns, standard, ats }: Grams, fed: number): number {
  const perStandard = standard[ats[fed] as number] as number;
  return owns[fed]?.lengthType !== 'SL' || Number.isNaN(perStandard) ? 1 : perStandard;
}

/** Takes in what bounds start from in a scenario. */
function load(grams: Grams, fed: number): void {
  const { columns, rations, knownCm, builds, knownG, perKnown, exponent, loadedIn } = grams;
  loadedIn[fed] = columns.scenario;
  const build = buildOf(grams, fed);
  const known = knownCm[fed] as number;
  if (builds[fed] !== build) {
    builds[fed] = build;
    knownG[fed] = (rations[fed] as number) * weight(known, build.a, build.b);
    exponent[fed] = build.b;
  }
  perKnown[fed] = 1 / (known * fitOf(grams, fed));
}

export function gramsOn(grams: Grams, fed: number): number {
  const { columns, ats, grown, rations, isByLength, adult } = grams;
  const at = ats[fed] as number;
  const cm = isByLength[fed] === 1 ? lengthIn(columns, at, grown[fed] as number) : (adult[at] as number);
  const { a, b } = buildOf(grams, fed);
  return (rations[fed] as number) * weight(cm / fitOf(grams, fed), a, b);
}

/** Bounds, save for rounding. */
export function gramsAtLeast(grams: Grams, fed: number): number {
  const { columns, ats, grown, isByLength, length, asymptote, rate, adult, knownG, perKnown, exponent, isLoose, loadedIn } = grams;
  if (isLoose[fed] === 1 && loadedIn[fed] !== columns.scenario) load(grams, fed);
  const at = ats[fed] as number;
  const cm =
    isByLength[fed] === 1
      ? lengthAtLeast(length[at] as number, asymptote[at] as number, rate[at] as number, grown[fed] as number)
      : (adult[at] as number);
  return (knownG[fed] as number) * powerAtLeast(cm * (perKnown[fed] as number), exponent[fed] as number);
}

export function gramsAtMost(grams: Grams, fed: number): number {
  const { columns, ats, grown, isByLength, length, asymptote, rate, adult, knownG, perKnown, exponent, isLoose, loadedIn } = grams;
  if (isLoose[fed] === 1 && loadedIn[fed] !== columns.scenario) load(grams, fed);
  const at = ats[fed] as number;
  const cm =
    isByLength[fed] === 1
      ? lengthAtMost(length[at] as number, asymptote[at] as number, rate[at] as number, grown[fed] as number)
      : (adult[at] as number);
  return (knownG[fed] as number) * powerAtMost(cm * (perKnown[fed] as number), exponent[fed] as number);
}

const LEAST_EXPONENT = 2;
/** The greatest exponent that bounds hold for: weights grow with the cube of a length or nearly so. */
export const MOST_EXPONENT = 4;

const isBounded = (own: Build | undefined): boolean => own === undefined || (own.b >= LEAST_EXPONENT && own.b <= MOST_EXPONENT);
