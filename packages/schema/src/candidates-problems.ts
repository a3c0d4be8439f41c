import { documentProblems, duplicateProblems } from './document-problems.js';
import type { Candidates } from './generated/candidates.js';
import { validate } from './generated/candidates-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

/**
 * What is wrong with a list of candidates, in the order of the document; nothing where it is right. What no schema can say is looked at once the
 * schema holds.
 *
 * @example
 * candidatesProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function candidatesProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  const { candidates } = data as Candidates;
  const species = candidates.map((candidate, index) => ({ id: candidate.species, pointer: `/candidates/${index}/species` }));
  return inDocumentOrder(data, [...duplicateProblems(species, 'Tell of each species once.'), ...documentProblems(data)]);
}
