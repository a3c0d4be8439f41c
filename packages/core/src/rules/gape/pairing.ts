import type { Growing } from '../../biology/first-crossing.js';
import { lengthAfter } from '../../biology/length-after.js';
import type { Band } from '../../quantity/band.js';
import { weakest } from '../../quantity/basis.js';
import { logDown, logUp, together } from '../../quantity/log-errors.js';
import type { StockAnimal } from '../../stock/stock.js';
import type { Basis } from '@commensal/schema';
import { type Barrier, worstMargin } from './first-look.js';
import { type LogLength, yearsSince } from './lengths.js';
import type { GapeOptions } from './options.js';
import { depthOffered, fullCm, limitOf, type Prey, type Swallower } from './sides.js';

/** A swallower and its prey in numbers, from a day on. Lengths are total lengths in cm. */
export interface Pairing extends Barrier {
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
  /** The share of the error of the mouth ratio that lies in the mouth, squeezing apart. */
  readonly limitError: number;
  /** Full sizes, for the time beyond the horizon. */
  readonly predatorFullCm: number;
  readonly preyFullCm: number;
}

/** What a pairing lacks: fields of the record or the situation, by whose they are. */
export interface Gaps {
  readonly predator: readonly string[];
  readonly prey: readonly string[];
}

/** The numbers of a pair from a day on; undefined where some are missing. */
export function pairingOf(swallower: Swallower, body: Prey, fromDay: number): Pairing | undefined {
  const { limit, limitPerTotal, limitError, lengthRatio, lengthRatioAtWorst, logLengthRatioAtWorst } = swallower;
  const { depthPerTotal, isDefended, depthError } = body;
  const predator = swallower.growthFrom(fromDay);
  const prey = body.growthFrom(fromDay);
  const { gapeClass, totalPerStandard } = swallower.animal.kind;
  if (gapeClass === undefined || limit === undefined || totalPerStandard === undefined) return undefined;
  if (depthPerTotal === undefined || predator === undefined || prey === undefined) return undefined;
  const mouthRatio = depthPerTotal.centre / limitPerTotal;
  return {
    predator,
    prey,
    limitPerTotal,
    depthPerTotal: depthPerTotal.centre,
    isDefended,
    ratio: Math.max(mouthRatio, lengthRatio),
    mouthRatio,
    lengthRatio,
    lengthRatioAtWorst,
    logMouthRatio: Math.log(mouthRatio),
    logLengthRatioAtWorst,
    mouthError: Math.sqrt(swallower.mouthSquares + depthError * depthError),
    limitError,
    predatorFullCm: fullCm(swallower.animal, predator),
    preyFullCm: fullCm(body.animal, prey),
    sharedCurve: swallower.animal.kind.id === body.animal.kind.id,
  };
}

/** What is missing where there is no pairing. */
export function gapsOf({ animal: predator, limit }: Swallower, { animal: prey, depthPerTotal }: Prey): Gaps {
  return {
    predator: [
      ...(predator.kind.gapeClass === undefined ? ['shape.gapeClass'] : []),
      ...(limit === undefined ? ['shape.lowerJaw'] : []),
      ...(predator.kind.totalPerStandard === undefined ? ['size.totalPerStandard'] : []),
      ...growthGaps(predator),
    ],
    prey: [...(depthPerTotal === undefined ? ['shape.bodyDepth'] : []), ...growthGaps(prey)],
  };
}

const growthGaps = (animal: StockAnimal): string[] => [
  ...(animal.lengthCm === undefined ? ['length'] : []),
  ...(animal.kind.asymptoticCm === undefined ? ['growth.asymptoticLength'] : []),
];

/** The weakest that a pairing of two rests on. */
export function basisOf(predator: StockAnimal, prey: StockAnimal, options: GapeOptions): Basis {
  const bands: readonly (Band | undefined)[] = [
    limitOf(predator.kind, options),
    predator.kind.totalPerStandard,
    depthOffered(prey.kind).perTotal,
    predator.lengthCm,
    prey.lengthCm,
    predator.kind.asymptoticCm,
    prey.kind.asymptoticCm,
  ];
  return weakest(...bands.map((band) => band?.basis ?? 'measured'));
}

/**
 * Whether danger is out of reach whatever the errors: the swallower at its longest on the last day against the prey at its
 * shortest on the first. Spares the search in most pairs.
 */
export const beyondDoubt = (pairing: Pairing, predatorAtLast: LogLength, preyAtFirst: LogLength): boolean =>
  worstMargin(pairing, predatorAtLast.longest - preyAtFirst.shortest, 0) < 0;

/** Which of the two stands between the prey and the swallower at the centre; of both, the one that does so more surely. */
export function standsBetween(pairing: Pairing, logLengths: number): 'mouth' | 'length' {
  const mouth = logLengths - pairing.logMouthRatio;
  const length = logLengths - Math.log(pairing.lengthRatio);
  if (mouth >= 0) return 'length';
  if (length >= 0) return 'mouth';
  return mouth + pairing.mouthError <= logLengths - pairing.logLengthRatioAtWorst ? 'mouth' : 'length';
}

/** The same at full size, where only the asymptotic lengths are uncertain. */
export function fullSizeMarginAtWorst(pairing: Pairing, predator: StockAnimal, prey: StockAnimal): number {
  const error = pairing.sharedCurve
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
