/** For those who write species records. Pure: whoever calls hands in texts, records and tables, and gets problems, texts and records back. */
export { type LookUpPages, lookUpPages } from './look-up-pages.js';
export { RECORD_ENDING, recordPath } from './record-path.js';
