/**
 * The documents of Commensal: their types, and one function a document that says what is wrong with one.
 * Importing one of the functions costs one validator.
 */
export type { Bibliography, CslDate, CslItem, CslName } from './generated/bibliography.js';
export type {
  Basis,
  Caution,
  CheckReport,
  Datum,
  Finding,
  Level,
  LevelCounts,
  RuleCounts,
  StaleAcceptance,
  Subject,
  Summary,
  Versions,
} from './generated/check.js';
export type { Candidates, CandidateSpecies } from './generated/candidates.js';
export type { Coverage, CoverageCounts, FamilyCoverage, FieldCoverage } from './generated/coverage.js';
// A plan holds findings and counts of the same types as a check report.
export type {
  Alternative,
  Change,
  Chosen,
  Conflict,
  Count,
  Equals,
  FoodOffered,
  IfChanged,
  Impossible,
  InsteadOf,
  LargerTank,
  LeftOut,
  MoreExperience,
  MoreRock,
  NotBefore,
  OrderProof,
  OrderReason,
  Plan,
  PlannedAnimals,
  PlannedIntroduction,
  PlannedLength,
  ProvisionMade,
  RelaidRock,
  ThisCount,
  ThisLength,
  WarmerOrCooler,
  WithoutCopper,
  WithoutResident,
  Worth,
} from './generated/plan.js';
export type { CheckedWith, ProblemCounts, RecordProblem, RecordsCheck } from './generated/records-check.js';
export type { Effect, Monotone, RuleDefault, RuleDescription, RuleList } from './generated/rules.js';
export type {
  Acceptance,
  AcidityReading,
  AnimalRemoved,
  BodyLength,
  DensityReading,
  Introduction,
  Keeper,
  LengthReading,
  MassReading,
  Newcomer,
  Resident,
  Rock,
  RockRelaid,
  SalinityReading,
  Settings,
  ShareReading,
  Situation,
  Tank,
  TankDivided,
  TankEvent,
  TemperatureReading,
  VolumeReading,
  Wish,
} from './generated/situation.js';
export type {
  Acidity,
  Activity,
  CaptiveBred,
  CareTier,
  CitesListing,
  Cleans,
  Company,
  Conduct,
  Conservation,
  Diet,
  Duration,
  Feeding,
  FeedingMode,
  FeedingPace,
  FishEating,
  GapeClass,
  Growth,
  GrowthRate,
  Hazard,
  IntroductionRole,
  KinGroup,
  Length,
  LengthRatio,
  LengthWeight,
  LifeCycle,
  LongSnout,
  Needs,
  Provisions,
  Pugnacity,
  RedListStatus,
  Salinity,
  SexChange,
  Shape,
  ShapeRatio,
  Size,
  SpeciesRecord,
  Taxon,
  Temperature,
  VernacularName,
  Volume,
  WayOfLiving,
} from './generated/species.js';
export type { StandInError, StandInGroup, StandInRate, StandInRatio, StandIns } from './generated/stand-ins.js';
export type {
  BestSetOutput,
  ChosenOutput,
  Design,
  EmpiricalSpread,
  FirstFailureOutput,
  GivenDesign,
  GridDesign,
  HaltonDesign,
  LatinHypercubeDesign,
  ListSpread,
  LogNormalSpread,
  MissingRockOutput,
  MonteCarloDesign,
  NormalSpread,
  OutcomeOutput,
  PeakAmmoniaOutput,
  RangeSpread,
  SensitivityDesign,
  SobolDesign,
  Spread,
  StudyOutput,
  StudyVariable,
  TriangularSpread,
  UniformSpread,
  WordsSpread,
} from './generated/study.js';
export type { StudyColumn, StudyManifest } from './generated/study-manifest.js';
export type {
  AlongVariable,
  CodeCount,
  ColumnSummary,
  CountedShare,
  ShareOfVariance,
  StudySummaryDocument,
  SummaryQuantile,
  VariableGroup,
} from './generated/study-summary.js';
export { speciesKeys } from './generated/species-keys.js';
export { SCHEMA_VERSION } from './generated/version.js';
export type { KeyOrder } from './key-order.js';

export { DAYS, eachObject } from './document-problems.js';
export { bibliographyProblems } from './bibliography-problems.js';
export { candidatesProblems } from './candidates-problems.js';
export { checkProblems } from './check-problems.js';
export { coverageProblems } from './coverage-problems.js';
export { type MigratedSpecies, migrateSpecies, speciesMigrations } from './migrate-species.js';
export type { Migration, Step } from './migrations/migration.js';
export { planProblems } from './plan-problems.js';
export { inDocumentOrder } from './in-document-order.js';
export { childPointer, keysOf, placeName, valueAt } from './pointer.js';
export type { Problem } from './problem.js';
export { problemsOf } from './problems-of.js';
export { readSpecies, type SpeciesRead } from './read-species.js';
export { recordsCheckProblems } from './records-check-problems.js';
export { rulesProblems } from './rules-problems.js';
export { EARLIER_VERSIONS } from './schema-version.js';
export { situationProblems } from './situation-problems.js';
export { sourcesUsedIn } from './sources-used.js';
export { speciesDocumentProblems } from './species-document-problems.js';
export { isSpeciesRecord, speciesProblems } from './species-problems.js';
export { standInsProblems } from './stand-ins-problems.js';
export { studyManifestProblems } from './study-manifest-problems.js';
export { studySummaryProblems } from './study-summary-problems.js';
export { type Study, studyProblems } from './study-problems.js';
export type { ValidationFault } from './validation-fault.js';
export { didYouMean, listWords, nearestWord, valueWords } from './words.js';
