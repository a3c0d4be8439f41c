/**
 * Which marine animals can live together in a tank, and in what order they go in.
 *
 * Record, animal, situation, rules, findings, plan: the exports follow that way.
 */
export { asymptoticFromMaximum } from './biology/asymptotic-length.js';
export { canSwallow } from './biology/can-swallow.js';
export { firstCrossing, type Growing } from './biology/first-crossing.js';
export { lengthAfter } from './biology/length-after.js';
export { ageAtLength, lengthAtAge } from './biology/length-at-age.js';
export { type Kinship, likeness, type LikenessWeights } from './biology/likeness.js';
export { rockClaim } from './biology/rock-claim.js';
export { rockEnvelope, waterDisplaced } from './biology/rock-envelope.js';
export { GAPE_PER_JAW, type Mouth, SQUEEZE, type SwallowLimit, swallowLimit, type SwallowRung } from './biology/swallow-limit.js';
export { type Activity, type RoomInLengths, type SwimmingNeed, swimmingNeed } from './biology/swimming-need.js';
export { cautionsOf } from './check/cautions.js';
export { check, type Checked, isError } from './check/check.js';
export { settingsProblems } from './check/settings-problems.js';
export { applyChange } from './changes/apply.js';
export { MOST_WISHES, plan, type Planned } from './plan/plan.js';
export { type Band, bandOf, DEFAULT_SPREAD, exactly, type Quantity } from './quantity/band.js';
export { BASES, weakest } from './quantity/basis.js';
export { dayOf, DAYS_PER_YEAR, isoOf } from './quantity/days.js';
export { convert } from './quantity/units.js';
export { type CareTierMeasure, careTier } from './rules/care-tier.js';
export { company, type CompanyMeasure } from './rules/company.js';
export { describeRule } from './rules/describe.js';
export { entryGap, type EntryGapMeasure } from './rules/entry-gap.js';
export { entryOrder, type EntryOrderMeasure } from './rules/entry-order.js';
export { familyBatch, type FamilyBatchMeasure } from './rules/family-batch.js';
export { gape, type GapeMeasure, lengthOn } from './rules/gape/index.js';
export { rules } from './rules/index.js';
export { rockCrowding, type RockCrowdingMeasure } from './rules/rock-crowding.js';
export {
  type AnyRule,
  type Effect,
  INAPPLICABLE,
  keyOf,
  optionsOf,
  type Outcome,
  PASSED,
  type Rule,
  type RuleDefault,
  type Telling,
  type Verdict,
} from './rules/rule.js';
export { swimmingRoom, type SwimmingRoomMeasure } from './rules/swimming-room.js';
export { water, type WaterMeasure } from './rules/water.js';
export { type Library, libraryOf, recordOf } from './stock/library.js';
export { daysTogether, type Pugnacity, type Stock, type StockAnimal, type StockKind, type StockTank, type StockWish } from './stock/stock.js';
export { HORIZON_DAYS, type Stocking, stockOf } from './stock/stock-of.js';
