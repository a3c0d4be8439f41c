/** For those who write species records. Pure: whoever calls hands in texts, records and tables, and gets problems, texts and records back. */
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
