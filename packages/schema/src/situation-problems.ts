import { situationDocumentProblems } from './situation-document-problems.js';
import type { Situation } from './generated/situation.js';
import { validate } from './generated/situation-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

/**
 * What is wrong with a situation, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * situationProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function situationProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, situationDocumentProblems(data as Situation));
}
