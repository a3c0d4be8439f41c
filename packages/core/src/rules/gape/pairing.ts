import type { Growing } from '../../biology/first-crossing.js';
import { lengthAfter } from '../../biology/length-after.js';
import type { Band } from '../../quantity/band.js';
import { weakest } from '../../quantity/basis.js';
import { logDown, logUp, together } from '../../quantity/log-errors.js';
import type { StockAnimal, StockKind } from '../../stock/stock.js';
import type { Basis } from '@commensal/schema';
import { type LengthBook, yearsSince } from './lengths.js';
import type { GapeOptions } from './options.js';

/** A swallower and its prey in numbers, from a day on. Lengths are total lengths in cm. */
export interface Pairing {
  readonly predator: Growing;
  readonly prey: Growing;
  /** Swallow limit over the predator's total length. */
  readonly limitPerTotal: number;
  /** Body depth over the prey's total length. */
  readonly depthPerTotal: number;
  /** That depth is with spines raised or the body blown up. */
  readonly isDefended: boolean;
  /** The swallower must be at least so many times as long as the prey. */
  readonly ratio: number;
  /** The same for the mouth alone and for the length alone, and for the length at the end less favourable to the prey. */
  readonly mouthRatio: number;
  readonly lengthRatio: number;
  readonly lengthRatioAtWorst: number;
  /** Error of the mouth ratio, in logarithms, and the share of it that lies in the mouth, squeezing apart. */
  readonly mouthError: number;
  readonly limitError: number;
  /** Full sizes, for the time beyond the horizon. */
  readonly predatorFullCm: number;
  readonly preyFullCm: number;
  readonly basis: Basis;
}

/** What a pairing lacks: fields of the record or the situation, by whose they are. */
export interface Gaps {
  readonly predator: readonly string[];
  readonly prey: readonly string[];
}

/** The numbers of a pair, or what is missing for them. */
export function pairingOf(predator: StockAnimal, prey: StockAnimal, fromDay: number, options: GapeOptions): Pairing | Gaps {
  const swallower = predator.kind;
  const distensible = swallower.gapeClass === 'distensible';
  const limit: Band | undefined = distensible ? stretched(options.distensibleLimit) : swallower.swallow;
  const { totalPerStandard } = swallower;
  const { perTotal: depthPerTotal, isDefended } = depthOffered(prey.kind);
  const predatorGrowth = growthOf(predator, fromDay);
  const preyGrowth = growthOf(prey, fromDay);
  if (
    limit === undefined ||
    totalPerStandard === undefined ||
    depthPerTotal === undefined ||
    predatorGrowth === undefined ||
    preyGrowth === undefined
  ) {
    return {
      predator: [
        ...(swallower.gapeClass === undefined ? ['shape.gapeClass'] : []),
        ...(limit === undefined ? ['shape.lowerJaw'] : []),
        ...(totalPerStandard === undefined ? ['size.totalPerStandard'] : []),
        ...growthGaps(predator),
      ],
      prey: [...(depthPerTotal === undefined ? ['shape.bodyDepth'] : []), ...growthGaps(prey)],
    };
  }
  const limitPerTotal = limit.centre / totalPerStandard.centre;
  const mouthRatio = depthPerTotal.centre / limitPerTotal;
  const lengthRatio = totalPerStandard.centre / (distensible ? options.distensibleLongestShare : options.longestShare);
  const limitError = logUp(limit);
  return {
    predator: predatorGrowth,
    prey: preyGrowth,
    limitPerTotal,
    depthPerTotal: depthPerTotal.centre,
    isDefended,
    ratio: Math.max(mouthRatio, lengthRatio),
    mouthRatio,
    lengthRatio,
    lengthRatioAtWorst: totalPerStandard.centre / (distensible ? options.distensibleLongestShareAtMost : options.longestShareAtMost),
    // A stretching mouth has squeezing in its limit already.
    mouthError: together(limitError, distensible ? 0 : Math.log(options.squeeze), logDown(totalPerStandard), logDown(depthPerTotal)),
    limitError,
    predatorFullCm: fullCm(predator, predatorGrowth),
    preyFullCm: fullCm(prey, preyGrowth),
    basis: weakest(
      limit.basis,
      totalPerStandard.basis,
      depthPerTotal.basis,
      predator.lengthCm?.basis ?? 'measured',
      prey.lengthCm?.basis ?? 'measured',
      swallower.asymptoticCm?.basis ?? 'measured',
      prey.kind.asymptoticCm?.basis ?? 'measured',
    ),
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

/** The band of the stretching limit: common practice, so as wide as practice is. */
const stretched = (limit: number): Band => ({ low: limit / 1.25, centre: limit, high: limit * 1.25, basis: 'practice' });

const growthGaps = (animal: StockAnimal): string[] => [
  ...(animal.lengthCm === undefined ? ['length'] : []),
  ...(animal.kind.asymptoticCm === undefined ? ['growth.asymptoticLength'] : []),
];

/** Full size for danger: the larger of the asymptotic length and the usual captive adult length, and never less than it is. */
const fullCm = (animal: StockAnimal, growth: Growing): number =>
  Math.max(growth.asymptoticCm, animal.kind.adultCm?.centre ?? 0, growth.startCm);

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

/**
 * Whether danger is out of reach whatever the errors: the swallower at its longest on the last day against the prey at its
 * shortest on the first. Spares the search in most pairs.
 */
export const beyondDoubt = (
  pairing: Pairing,
  predator: StockAnimal,
  prey: StockAnimal,
  from: number,
  until: number,
  lengths: LengthBook,
): boolean => worstMargin(pairing, lengths(predator, until).longest - lengths(prey, from).shortest, 0) < 0;

/** How far the point less favourable to the prey lies beyond the danger line on a day, in logarithms; danger from 0 up. */
export function marginAtWorst(pairing: Pairing, predator: StockAnimal, prey: StockAnimal, day: number, lengths: LengthBook): number {
  const ofPredator = lengths(predator, day);
  const ofPrey = lengths(prey, day);
  const error = predator.kind.id === prey.kind.id ? together(ofPredator.startUp, ofPrey.startDown) : together(ofPredator.up, ofPrey.down);
  return worstMargin(pairing, ofPredator.log - ofPrey.log, error);
}

/** The mouth and the length cap are two conditions; danger needs both. */
const worstMargin = (pairing: Pairing, logLengths: number, lengthsError: number): number =>
  Math.min(
    logLengths - Math.log(pairing.mouthRatio) + together(pairing.mouthError, lengthsError),
    logLengths - Math.log(pairing.lengthRatioAtWorst) + lengthsError,
  );

/** Which of the two stands between the prey and the swallower at the centre; of both, the one that does so more surely. */
export function standsBetween(pairing: Pairing, logLengths: number): 'mouth' | 'length' {
  const mouth = logLengths - Math.log(pairing.mouthRatio);
  const length = logLengths - Math.log(pairing.lengthRatio);
  if (mouth >= 0) return 'length';
  if (length >= 0) return 'mouth';
  return mouth + pairing.mouthError <= logLengths - Math.log(pairing.lengthRatioAtWorst) ? 'mouth' : 'length';
}

/** The same at full size, where only the asymptotic lengths are uncertain. */
export function fullSizeMarginAtWorst(pairing: Pairing, predator: StockAnimal, prey: StockAnimal): number {
  const sharedCurve = predator.kind.id === prey.kind.id;
  const error = sharedCurve
    ? 0
    : together(
        predator.kind.asymptoticCm === undefined ? 0 : logUp(predator.kind.asymptoticCm),
        prey.kind.asymptoticCm === undefined ? 0 : logDown(prey.kind.asymptoticCm),
      );
  return worstMargin(pairing, Math.log(pairing.predatorFullCm / pairing.preyFullCm), error);
}

/** Expected total length on a day, in cm. */
export function lengthOn(animal: StockAnimal, day: number): number {
  const { lengthCm } = animal;
  const { asymptoticCm, ratePerYear } = animal.kind;
  if (lengthCm === undefined) return Number.NaN;
  if (asymptoticCm === undefined || ratePerYear === undefined) return lengthCm.centre;
  return lengthAfter(lengthCm.centre, asymptoticCm.centre, ratePerYear.centre, yearsSince(animal, day));
}
