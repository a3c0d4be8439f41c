import { inDocumentOrder, type Problem, speciesDocumentProblems, type SpeciesRecord } from '@commensal/schema';
import { unknownExceptions, withExceptions } from './exceptions.js';
import { dietAgainstMode, dietWithoutHarm, foodNotListed } from './feeding/diet.js';
import { fishEatingDiet, fishEatingGape, fishEatingMode, gapeAgainstMode } from './feeding/fish-eating.js';
import { asymptoticLength, growthPerformance } from './lengths/asymptotic-length.js';
import { bodyLengths } from './lengths/body-lengths.js';
import { lengthsApart, weightsApart } from './lengths/elsewhere.js';
import { entryAboveAdult, farBelowMaximum, longerThanMaximum } from './lengths/length-order.js';
import { invertedRatio, ratioOrder } from './lengths/length-ratios.js';
import { lengthTypeMissing, lengthTypeOfForm } from './lengths/length-types.js';
import { tenfoldLength } from './lengths/tenfold-length.js';
import { familyEnding, namesItself, ownNameAsSynonym, releaseOrder, synonymForm, vernacularNames } from './names/names.js';
import { unknownSource } from './names/unknown-source.js';
import { beyondUsual } from './needs/beyond-usual.js';
import { captiveBredHarder, companyAtOdds, provisionAtOdds, tierWithoutProvisions } from './needs/provisions.js';
import { gravityForSalinity, temperatureOutsideLimits } from './needs/water.js';
import type { ProblemContext } from './problem-context.js';
import { closedMouth, gapeAgainstJaw } from './shape/gape.js';
import { defenceMissing, hazardMissing, longSnoutMissing } from './shape/flags-missing.js';
import { imputedOtherwise } from './shape/imputed-otherwise.js';
import { unlikeRelatives } from './shape/unlike-relatives.js';
import { weightAgainstShape } from './shape/weight-against-shape.js';
import { defenceBelowDepth, widerThanDeep } from './shape/wider-than-deep.js';
import { type RecordCheck, toldOnce } from './suspicion.js';

/** The most basic first: what rests on a figure that an earlier one doubts is not told. */
const CHECKS: readonly RecordCheck[] = [
  familyEnding,
  ownNameAsSynonym,
  synonymForm,
  vernacularNames,
  namesItself,
  releaseOrder,
  unknownSource,
  lengthTypeOfForm,
  lengthTypeMissing,
  invertedRatio,
  imputedOtherwise,
  ratioOrder,
  tenfoldLength,
  longerThanMaximum,
  entryAboveAdult,
  farBelowMaximum,
  lengthsApart,
  asymptoticLength,
  growthPerformance,
  closedMouth,
  longSnoutMissing,
  unlikeRelatives,
  widerThanDeep,
  defenceBelowDepth,
  defenceMissing,
  gapeAgainstJaw,
  weightAgainstShape,
  weightsApart,
  hazardMissing,
  dietAgainstMode,
  foodNotListed,
  fishEatingDiet,
  fishEatingMode,
  gapeAgainstMode,
  fishEatingGape,
  dietWithoutHarm,
  temperatureOutsideLimits,
  gravityForSalinity,
  tierWithoutProvisions,
  captiveBredHarder,
  provisionAtOdds,
  companyAtOdds,
  beyondUsual,
];

/** Figures that `speciesProblems` has something against besides the schema: a band out of order, water that boils. */
function doubtedBefore(record: SpeciesRecord): string[] {
  return speciesDocumentProblems(record)
    .filter(({ code }) => !code.startsWith('source-'))
    .flatMap(({ pointer }) => [pointer, pointer.slice(0, pointer.lastIndexOf('/'))]);
}

/**
 * What is implausible in one record, in the order of the document: figures that do not go together, shapes unlike those of relatives, flags
 * that its family needs, words that contradict each other, sources that the bibliography does not have, exceptions that nothing needs. One
 * mistake gives one problem. `RECORD_CODES` tells the level of each.
 *
 * The record must have passed `speciesProblems`, at least its schema: what is told there is not told again.
 *
 * @example
 * recordProblems(record, { bibliography, standIns }).map(({ code, pointer }) => `${code} ${pointer}`) // []
 */
export function recordProblems(record: SpeciesRecord, context: ProblemContext): Problem[] {
  const lengths = bodyLengths(record, context.standIns);
  const suspicions = CHECKS.flatMap((check) => check(record, context, lengths));
  // Most records give no ground for any.
  const found = suspicions.length === 0 ? [] : toldOnce(suspicions, doubtedBefore(record));
  if (found.length === 0 && record.exceptions === undefined) return [];
  const problems = [...withExceptions(record, found, 'record'), ...unknownExceptions(record)];
  return problems.length === 0 ? [] : inDocumentOrder(record, problems);
}
