/**
 * Which marine animals can live together in a tank, and in what order they go in.
 *
 * Record, animal, situation, rules, findings, plan: the exports follow that way.
 */
export { AMMONIA_PER_NITROGEN, asAmmonia, asNitrogen } from './biology/ammonia-as.js';
export {
  type AmmoniaCourse,
  ammoniaCourse,
  type AmmoniaDay,
  type AmmoniaTank,
  type LoadStep,
  STEPS_PER_DAY,
} from './biology/ammonia-course.js';
export { AMMONIA_PER_PROTEIN, ammoniaFromFeed } from './biology/ammonia-from-feed.js';
export { asymptoticFromMaximum } from './biology/asymptotic-length.js';
export { canSwallow } from './biology/can-swallow.js';
export { chanceAtLogRatio, chanceOfWinning, CONTEST_STEEPNESS, logRatioAtChance } from './biology/chance-of-winning.js';
export { effectiveLength, RESIDENCE_DAYS, RESIDENCE_WORTH } from './biology/effective-length.js';
export { everCrosses, firstCrossing, type Growing } from './biology/first-crossing.js';
export { lengthAfter } from './biology/length-after.js';
export { ageAtLength, lengthAtAge } from './biology/length-at-age.js';
export { type Kinship, likeness, type LikenessWeights } from './biology/likeness.js';
export { areaForLoad, NITRIFICATION_PER_M2, nitrificationOf } from './biology/nitrification.js';
export { CENTRAL_KINETICS, NITRIFIER_KINETICS, type NitrifierKinetics } from './biology/nitrifier-kinetics.js';
export { oxygenSaturation, oxygenSaturationWeiss } from './biology/oxygen-saturation.js';
export { rockClaim } from './biology/rock-claim.js';
export { rockEnvelope, waterDisplaced } from './biology/rock-envelope.js';
export { CONDUCTIVITY_35, salinityFromConductivity, salinityFromRatio } from './biology/salinity.js';
export { seawaterDensity } from './biology/seawater-density.js';
export { settledAmmonia } from './biology/settled-ammonia.js';
export { settlingDays } from './biology/settling-days.js';
export { salinityFromSpecificGravity, specificGravity } from './biology/specific-gravity.js';
export {
  GAPE_PER_JAW,
  type Mouth,
  PLANKTIVORE_WIDTH_PER_HEIGHT,
  SQUEEZE,
  type SwallowLimit,
  swallowLimit,
  type SwallowRung,
} from './biology/swallow-limit.js';
export { type Activity, type RoomInLengths, type SwimmingNeed, swimmingNeed } from './biology/swimming-need.js';
export { unIonisedShare, unIonisedShareFresh } from './biology/un-ionised-share.js';
export { weight } from './biology/weight.js';
export { weightEquivalentLength } from './biology/weight-equivalent-length.js';
export { CAUTION_SOURCES, cautionsOf } from './check/cautions.js';
export { check, type Checked, isError } from './check/check.js';
export { nearMiss } from './check/near-miss.js';
export { settingsProblems } from './check/settings-problems.js';
export { applyChange } from './changes/apply.js';
export { type Candidate, type CandidateOptions, candidatesFor } from './plan/candidates.js';
export {
  joinSteps,
  MOST_OPTIONS,
  MOST_WISHES,
  numbersWished,
  plan,
  type PlanChoice,
  planInSteps,
  type Planned,
  type PlanReasons,
  type PlanSteps,
} from './plan/plan.js';
export { type Band, bandOf, DEFAULT_SPREAD, exactly, type Quantity } from './quantity/band.js';
export { BASES, weakest } from './quantity/basis.js';
export { dayOf, DAYS_PER_YEAR, isoOf } from './quantity/days.js';
export { convert } from './quantity/units.js';
export { appetite, type AppetiteMeasure } from './rules/appetite/index.js';
export { type CareTierMeasure, careTier } from './rules/care-tier.js';
export { company, type CompanyMeasure } from './rules/company.js';
export { describeRule } from './rules/describe.js';
export { dominance, type DominanceLook, type DominanceMeasure } from './rules/dominance.js';
export { entryGap, type EntryGapMeasure } from './rules/entry-gap/index.js';
export { entryOrder, type EntryOrderMeasure } from './rules/entry-order.js';
export { type EscapeMeasure, escaping } from './rules/escape/index.js';
export { familyBatch, type FamilyBatchMeasure } from './rules/family-batch.js';
export { gape, type GapeMeasure, lengthOn } from './rules/gape/index.js';
export { type ExpectedHierarchy, expectedHierarchy, type HierarchyPlace } from './rules/hierarchy.js';
export { lockout, type LockoutMeasure } from './rules/lockout.js';
export { maturity, type MaturityMeasure } from './rules/maturity.js';
export { niche, type NicheMeasure } from './rules/niche/index.js';
export { nitrogen, peakAmmonia, type NitrogenMeasure } from './rules/nitrogen/index.js';
export { quarantine, type QuarantineMeasure } from './rules/quarantine.js';
export { rivalry, type RivalryMeasure } from './rules/rivalry.js';
export { rules } from './rules/index.js';
export { missingRock, rockCrowding, type RockCrowdingMeasure } from './rules/rock-crowding.js';
export {
  type AnyRule,
  type Effect,
  INAPPLICABLE,
  keyOf,
  optionsOf,
  type Outcome,
  PASSED,
  type Planning,
  type Rule,
  type RuleDefault,
  type Telling,
  type Verdict,
} from './rules/rule.js';
export { shelter, type ShelterMeasure } from './rules/shelter/index.js';
export { swimmingRoom, type SwimmingRoomMeasure } from './rules/swimming-room.js';
export { water, type WaterMeasure } from './rules/water.js';
export type { WaterWordMeasure } from './rules/water-words.js';
export { ANY_GROWTH_RATE } from './stock/kind-of.js';
export { type Library, libraryOf, recordOf } from './stock/library.js';
export { standIn, type StandInFigure } from './stock/stand-ins.js';
export {
  daysTogether,
  type Pugnacity,
  type Stock,
  type StockAnimal,
  type StockKind,
  type StockTank,
  type StockWish,
} from './stock/stock.js';
export { HORIZON_DAYS, type Stocking, stockOf } from './stock/stock-of.js';
export { growthRateWith, type Spread80 } from './whatif/distribution/growth-pair.js';
export { normalQuantile } from './whatif/distribution/normal-quantile.js';
export { spreadQuantile } from './whatif/distribution/spread-quantile.js';
export { directionNumbers, SOBOL_DIMENSIONS } from './whatif/design/direction-numbers.js';
export { firstPrimes, radicalInverse } from './whatif/design/halton.js';
export { shuffled } from './whatif/design/permutation.js';
export { sobolBits } from './whatif/design/sobol.js';
export { drawAt, streamOf } from './whatif/random/draw.js';
export { philox4x32 } from './whatif/random/philox.js';
export { runnerOf, scenariosOf } from './whatif/run.js';
export { type Evaluator, evaluatorOf } from './whatif/scenario/evaluator.js';
export { OUTCOMES } from './whatif/scenario/outputs.js';
export { type Scenario, scenarioOf } from './whatif/scenario/scenario-of.js';
export type { Column } from './whatif/study/column.js';
export { type CompiledStudy, MOST_SCENARIOS, studyOf } from './whatif/study/study.js';
export type { Variable } from './whatif/study/variable.js';
export { momentsOf, type Moments } from './whatif/summary/moments.js';
export { PASSES, quantileSearch, type QuantileSearch } from './whatif/summary/quantile-search.js';
export { type SobolIndex, sobolIndices } from './whatif/summary/sobol-indices.js';
export {
  type ByVariable,
  type Counted,
  type Group,
  type OutputSummary,
  QUANTILES,
  type RowSource,
  type StudySummary,
  type SummaryDesign,
  summaryOf,
} from './whatif/summary/summary.js';
export { type ShareInterval, wilson } from './whatif/summary/wilson.js';
