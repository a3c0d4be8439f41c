/** For those who write species records. Pure: whoever calls hands in texts, records and tables, and gets problems, texts and records back. */
export { coverageOf, STANDINGS } from './coverage/coverage.js';
export { coveragePicture } from './coverage/coverage-picture.js';
export { coverageCsv, coverageMarkdown, coverageText } from './coverage/coverage-table.js';
export { FIELDS } from './coverage/fields.js';
export {
  type DraftInput,
  draftRecord,
  familiesKnown,
  familyOfGenus,
  formOfFamily,
  idOf,
  kinOfGenus,
  nearFamily,
  nearName,
  nextRelease,
  recordedAs,
  recordText,
  SCIENTIFIC_NAME,
} from './draft/draft-record.js';
export { type ImputedFigure, imputedFigure, type ImputedWeight, imputedWeight, withImputed } from './draft/imputed.js';
export { explain, type Explained, explainMarkdown, explainText } from './explain/explain.js';
export { type Judgement, type Look, lookAt } from './explain/meetings.js';
export { type Worth, type WorthFinding, worthFinding } from './explain/worth-finding.js';
export { voiceFor } from './explain/voice-for.js';
export { sayWorth, worthLines, worthNote } from './explain/worth-text.js';
export { entriesAt, fieldAt, type Grounded, groundedIn, type Standing, standingOf } from './field-at.js';
export { type LookUpPages, lookUpPages } from './look-up-pages.js';
export { type MissingSource, type SourceUse, sourcesNamedIn, sourceUse, type UsedSource, type UseOfSource } from './sources/source-use.js';
export { sourcesMarkdown, sourcesText } from './sources/sources-text.js';
export { type ArchiveFacts, type ArchiveFile, darwinCoreArchive } from './exchange/darwin-core.js';
export { type Fact, factsOf, type Grounds } from './exchange/facts.js';
export { jsonLines } from './exchange/json-lines.js';
export type { RecordFile } from './exchange/measured-species.js';
export type { Figure } from './exchange/measurement-table.js';
export { figureWords, importMeasurements, MEASUREMENT_FIELDS, type MeasurementImport, type RowOutcome } from './exchange/measurements.js';
export { idOfFile, RECORD_ENDING, recordPath } from './record-path.js';
export { formProblems, isInOrder, jsonText, recordForm, type RecordForm } from './form/record-form.js';
export { CANONICAL_UNITS, type Canonical } from './form/units.js';
export { duplicateKeys } from './json-text/duplicate-keys.js';
export { nodeAt } from './json-text/node-at.js';
export { type Place, placesIn } from './json-text/places.js';
export { type JsonMember, type JsonNode, jsonTree } from './json-text/tree.js';
export type { FoundIn, RecordCode } from './codes/code.js';
export { PROBLEM_CODES, RECORD_CODES } from './codes/record-codes.js';
export type { RecordEntry } from './problems/among-records/entry.js';
export { collectionProblems } from './problems/collection-problems.js';
export type { ProblemContext } from './problems/problem-context.js';
export { recordProblems } from './problems/record-problems.js';
