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
  /** The same for the mouth alone and for the length alone, at the end less favourable to the prey. */
  readonly mouthRatioAtWorst: number;
  readonly lengthRatioAtWorst: number;
  /** Error of the mouth ratio, in logarithms. */
  readonly mouthError: number;
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
  const isDefended = raisesItsDepth(prey.kind);
  const depthPerTotal = isDefended ? prey.kind.defendedPerTotal : prey.kind.depthPerTotal;
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
  return {
    predator: predatorGrowth,
    prey: preyGrowth,
    limitPerTotal,
    depthPerTotal: depthPerTotal.centre,
    isDefended,
    ratio: distensible ? mouthRatio : Math.max(mouthRatio, totalPerStandard.centre / options.longestShare),
    mouthRatioAtWorst: mouthRatio,
    lengthRatioAtWorst: distensible ? 0 : totalPerStandard.centre / options.longestShareAtMost,
    // A stretching mouth has squeezing in its limit already.
    mouthError: together(logUp(limit), distensible ? 0 : Math.log(options.squeeze), logDown(totalPerStandard), logDown(depthPerTotal)),
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

/** Whether spines or a blown-up body make it deeper than it is at rest. */
const raisesItsDepth = ({ defendedPerTotal, depthPerTotal }: StockKind): boolean =>
  defendedPerTotal !== undefined && defendedPerTotal.centre > (depthPerTotal?.centre ?? 0);

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
function worstMargin(pairing: Pairing, logLengths: number, lengthsError: number): number {
  const mouth = logLengths - Math.log(pairing.mouthRatioAtWorst) + together(pairing.mouthError, lengthsError);
  const length =
    pairing.lengthRatioAtWorst === 0 ? Number.POSITIVE_INFINITY : logLengths - Math.log(pairing.lengthRatioAtWorst) + lengthsError;
  return Math.min(mouth, length);
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

/**
 * What would narrow the doubt most: the field whose error weighs most on the last day, and whose it is.
 */
export function weightiestDoubt(
  predator: StockAnimal,
  prey: StockAnimal,
  day: number,
  lengths: LengthBook,
): { field: string; of: StockAnimal } {
  const sharedCurve = predator.kind.id === prey.kind.id;
  const isDefended = raisesItsDepth(prey.kind);
  const depth = isDefended ? prey.kind.defendedPerTotal : prey.kind.depthPerTotal;
  const ofPredator = lengths(predator, day);
  const ofPrey = lengths(prey, day);
  const doubts: { field: string; of: StockAnimal; error: number }[] = [
    { field: 'shape.lowerJaw', of: predator, error: predator.kind.swallow === undefined ? 0 : logUp(predator.kind.swallow) },
    { field: isDefended ? 'shape.defendedDepth' : 'shape.bodyDepth', of: prey, error: depth === undefined ? 0 : logDown(depth) },
    { field: 'growth', of: predator, error: sharedCurve ? ofPredator.startUp : ofPredator.up },
    { field: 'growth', of: prey, error: sharedCurve ? ofPrey.startDown : ofPrey.down },
  ];
  // Errors that differ by rounding alone are even, so that units of the input do not decide which is named.
  return doubts.reduce((most, doubt) => (doubt.error > most.error + 1e-9 ? doubt : most));
}
