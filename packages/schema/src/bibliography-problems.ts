import { duplicateProblems } from './document-problems.js';
import type { Bibliography } from './generated/bibliography.js';
import { validate } from './generated/bibliography-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

function idProblems(items: Bibliography): Problem[] {
  return duplicateProblems(
    items.map(({ id }, index) => ({ id, pointer: `/${index}/id` })),
    'Keep one, or give one another key.',
  );
}

/**
 * What is wrong with a bibliography, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * bibliographyProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function bibliographyProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, idProblems(data as Bibliography));
}
