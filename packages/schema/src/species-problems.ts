import { speciesDocumentProblems } from './species-document-problems.js';
import type { SpeciesRecord } from './generated/species.js';
import { validate } from './generated/species-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';
import { otherVersionProblem } from './schema-version.js';

/**
 * What is wrong with a species record, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds. A record that follows another version of the schema has that one problem:
 * `readSpecies` takes later ones, `migrateSpecies` earlier ones.
 *
 * @example
 * speciesProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function speciesProblems(data: unknown): Problem[] {
  if (!validate(data)) {
    const faults = validate.errors ?? [];
    const otherVersion = otherVersionProblem(data, 'species');
    return otherVersion === undefined ? problemsOf(faults, data) : [otherVersion];
  }
  return inDocumentOrder(data, speciesDocumentProblems(data as SpeciesRecord));
}

/**
 * Whether the schema takes a record. Names and sources of one that it takes may still not agree: `speciesProblems` says that as well.
 *
 * @example
 * isSpeciesRecord({}) // false
 */
export const isSpeciesRecord = (data: unknown): data is SpeciesRecord => validate(data);
