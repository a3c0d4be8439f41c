import type { Growing } from '../../biology/first-crossing.js';
import { lengthAfter } from '../../biology/length-after.js';
import type { Band } from '../../quantity/band.js';
import { logDown, logUp } from '../../quantity/log-errors.js';
import { dayPage } from '../day-book.js';
import type { StockAnimal, StockKind } from '../../stock/stock.js';
import { type LogLength, logLengthOf, yearsSince } from './lengths.js';
import type { GapeOptions } from './options.js';

/** An animal in the numbers that all its pairs share, so that each is worked out once. Lengths are total lengths in cm. */
export interface Side {
  readonly animal: StockAnimal;
  readonly lengthOn: (day: number) => LogLength;
  /** Growth from a day on; undefined where length or growth is not known. */
  readonly growthFrom: (day: number) => Growing | undefined;
}

/** An animal as one that swallows. */
export interface Swallower extends Side {
  /** Swallow limit over standard length; undefined where nothing is known of the mouth. */
  readonly limit: Band | undefined;
  /** The same over its total length; NaN where not known. */
  readonly limitPerTotal: number;
  readonly limitError: number;
  /** Sum of the squares of its errors of the mouth, squeezing and standard length among them. */
  readonly mouthSquares: number;
  /** It must be at least so many times as long as prey, whatever its mouth; the same at the end less favourable to the prey. */
  readonly lengthRatio: number;
  readonly lengthRatioAtWorst: number;
  readonly logLengthRatioAtWorst: number;
  /** Logarithms of the deepest and of the longest body that it may ever swallow, all its errors at their worst at once. */
  readonly deepestEver: number;
  readonly longestEver: number;
}

/** An animal as prey. */
export interface Prey extends Side {
  /** The depth that has to pass over total length; undefined where not known. */
  readonly depthPerTotal: Band | undefined;
  readonly isDefended: boolean;
  readonly depthError: number;
  /** Logarithms of the least depth and the least length that it may have from the day it comes in, all its errors at their worst at once. */
  readonly shallowestEver: number;
  readonly shortestEver: number;
}

/** The band of the stretching limit: common practice, so as wide as practice is. */
const stretched = (limit: number): Band => ({ low: limit / 1.25, centre: limit, high: limit * 1.25, basis: 'practice' });

/** The deepest body that passes, over standard length. */
export const limitOf = ({ gapeClass, swallow }: StockKind, options: GapeOptions): Band | undefined =>
  gapeClass === 'distensible' ? stretched(options.distensibleLimit) : swallow;

/** What is not known is NaN, and nothing follows from it. */
const known = (is: boolean, value: number): number => (is ? value : Number.NaN);

/** An animal as a swallower; `lastDay` is the last on which any two are compared. */
export function swallowerOf({ animal, lengthOn, growthFrom }: Side, lastDay: number, options: GapeOptions): Swallower {
  const { kind } = animal;
  const { gapeClass, totalPerStandard } = kind;
  const distensible = gapeClass === 'distensible';
  const limit = limitOf(kind, options);
  const standard = totalPerStandard?.centre ?? Number.NaN;
  const limitPerTotal = (limit?.centre ?? Number.NaN) / standard;
  const limitError = limit === undefined ? 0 : logUp(limit);
  // A stretching mouth has squeezing in its limit already.
  const squeeze = distensible ? 0 : Math.log(options.squeeze);
  const standardError = totalPerStandard === undefined ? 0 : logDown(totalPerStandard);
  const mouthSquares = limitError * limitError + squeeze * squeeze + standardError * standardError;
  const lengthRatio = standard / (distensible ? options.distensibleLongestShare : options.longestShare);
  const lengthRatioAtWorst = standard / (distensible ? options.distensibleLongestShareAtMost : options.longestShareAtMost);
  const longest = Math.max(lengthOn(lastDay).longest, logFullCm(animal, logUp));
  const ever = known(gapeClass !== undefined && limit !== undefined, longest);
  return {
    animal,
    lengthOn,
    growthFrom,
    limit,
    limitPerTotal,
    limitError,
    mouthSquares,
    lengthRatio,
    lengthRatioAtWorst,
    logLengthRatioAtWorst: Math.log(lengthRatioAtWorst),
    deepestEver: ever + Math.log(limitPerTotal) + Math.sqrt(mouthSquares),
    longestEver: ever - Math.log(Math.min(lengthRatio, lengthRatioAtWorst)),
  };
}

/** An animal as prey, from the day it comes in. */
export function preyOf({ animal, lengthOn, growthFrom }: Side, firstDay: number): Prey {
  const { perTotal: depthPerTotal, isDefended } = depthOffered(animal.kind);
  const depthError = depthPerTotal === undefined ? 0 : logDown(depthPerTotal);
  const shortest = Math.min(
    lengthOn(firstDay).shortest,
    logFullCm(animal, (band) => -logDown(band)),
  );
  const ever = known(depthPerTotal !== undefined, shortest);
  return {
    animal,
    lengthOn,
    growthFrom,
    depthPerTotal,
    isDefended,
    depthError,
    shallowestEver: ever + Math.log(depthPerTotal?.centre ?? Number.NaN) - depthError,
    shortestEver: ever,
  };
}

/** Full size as a logarithm, with the error of the asymptotic length added. */
const logFullCm = (animal: StockAnimal, error: (band: Band) => number): number =>
  Math.log(fullCmOf(animal)) + (animal.kind.asymptoticCm === undefined ? 0 : error(animal.kind.asymptoticCm));

/** The rounding of a sum of a few logarithms, and much more. */
export const ROUNDING = 1e-9;

/**
 * Whether the prey is out of reach for good, whatever the errors: the deepest or the longest body that the swallower may ever take is smaller
 * than the least that the prey may be. Spares most pairs all further arithmetic; where something is not known it is false.
 */
export const neverFits = (
  predator: Pick<Swallower, 'deepestEver' | 'longestEver'>,
  prey: Pick<Prey, 'shallowestEver' | 'shortestEver'>,
): boolean => predator.deepestEver < prey.shallowestEver - ROUNDING || predator.longestEver < prey.shortestEver - ROUNDING;

/** Full size for danger: the larger of the asymptotic length and the usual captive adult length, and never less than it is. */
const fullCmOf = ({ lengthCm, kind: { asymptoticCm, adultCm } }: StockAnimal): number =>
  Math.max(asymptoticCm?.centre ?? 0, adultCm?.centre ?? 0, lengthCm?.centre ?? 0);

/** Full size of an animal that grows from a day on. */
export const fullCm = (animal: StockAnimal, growth: Growing): number => Math.max(fullCmOf(animal), growth.startCm);

/** Shells, spines and stings are no matter of the gape. */
export const canBePrey = ({ kind: { form } }: StockAnimal): boolean => form === 'fish' || form === 'shrimp' || form === 'crab';

export const sideOf = (animal: StockAnimal): Side => ({
  animal,
  lengthOn: dayPage(logLengthOf, animal),
  growthFrom: dayPage(growthOf, animal),
});

/** Growth from a day on; a length taken later than that day counts as it is. */
function growthOf(animal: StockAnimal, fromDay: number): Growing | undefined {
  const { lengthCm } = animal;
  const { asymptoticCm, ratePerYear } = animal.kind;
  if (lengthCm === undefined || asymptoticCm === undefined || ratePerYear === undefined) return undefined;
  return {
    startCm: lengthAfter(lengthCm.centre, asymptoticCm.centre, ratePerYear.centre, yearsSince(animal, fromDay)),
    asymptoticCm: Math.max(asymptoticCm.centre, lengthCm.centre),
    ratePerYear: ratePerYear.centre,
  };
}

/** The depth that has to pass over total length: that of raised spines or a blown-up body where it is deeper than at rest. */
export function depthOffered({ defendedPerTotal, depthPerTotal }: StockKind): {
  perTotal: Band | undefined;
  isDefended: boolean;
  field: string;
} {
  return defendedPerTotal !== undefined && defendedPerTotal.centre > (depthPerTotal?.centre ?? 0)
    ? { perTotal: defendedPerTotal, isDefended: true, field: 'shape.defendedDepth' }
    : { perTotal: depthPerTotal, isDefended: false, field: 'shape.bodyDepth' };
}
