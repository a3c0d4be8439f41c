/** For those who write species records. Pure: whoever calls hands in texts, records and tables, and gets problems, texts and records back. */
export { RECORD_ENDING, recordPath } from './record-path.js';
export type { RecordEntry } from './problems/among-records/entry.js';
export { type FoundIn, problemCode, type ProblemCode, problemCodes } from './problems/codes.js';
export { collectionProblems } from './problems/collection-problems.js';
export type { ProblemContext } from './problems/problem-context.js';
export { recordProblems } from './problems/record-problems.js';
