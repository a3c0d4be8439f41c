import { documentProblems } from './document-problems.js';
import { validate } from './generated/plan-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

/**
 * What is wrong with a plan, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * planProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function planProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, documentProblems(data));
}
