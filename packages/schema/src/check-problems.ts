import { documentProblems } from './document-problems.js';
import { validate } from './generated/check-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

/**
 * What is wrong with a check report, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * checkProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function checkProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, documentProblems(data));
}
