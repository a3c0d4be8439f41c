/**
 * Sample species records with their bibliography and the stand-ins for what they lack.
 * `records` is everything; a single species is at `@commensal/species-sample/species/<id>`.
 */
export { bibliography, records, release, standIns } from './generated/sample.js';
