/** For those who write species records. Pure: whoever calls hands in texts, records and tables, and gets problems, texts and records back. */
export { RECORD_ENDING, recordPath } from './record-path.js';
export { type ArchiveFacts, type ArchiveFile, darwinCoreArchive } from './exchange/darwin-core.js';
export { type Fact, factsOf, type Grounds } from './exchange/facts.js';
export { jsonLines } from './exchange/json-lines.js';
export type { RecordFile } from './exchange/measured-species.js';
export type { Figure } from './exchange/measurement-table.js';
export { figureWords, importMeasurements, MEASUREMENT_FIELDS, type MeasurementImport, type RowOutcome } from './exchange/measurements.js';
export { formProblems, isInOrder, jsonText, recordForm, type RecordForm } from './form/record-form.js';
export { CANONICAL_UNITS, type Canonical } from './form/units.js';
export { duplicateKeys } from './json-text/duplicate-keys.js';
export { nodeAt } from './json-text/node-at.js';
export { type Place, placesIn } from './json-text/places.js';
export { type JsonMember, type JsonNode, jsonTree } from './json-text/tree.js';
export { RECORD_CODES, type RecordCode } from './codes.js';
