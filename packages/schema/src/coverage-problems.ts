import { documentProblems, duplicateProblems } from './document-problems.js';
import type { Coverage } from './generated/coverage.js';
import { validate } from './generated/coverage-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

function nameProblems({ fields, families }: Coverage): Problem[] {
  return [
    ...duplicateProblems(
      fields.map(({ field }, index) => ({ id: field, pointer: `/fields/${index}/field` })),
      'Count each field once.',
    ),
    ...duplicateProblems(
      families.map(({ family }, index) => ({ id: family, pointer: `/families/${index}/family` })),
      'Count each family once.',
    ),
  ];
}

/**
 * What is wrong with a coverage table, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * coverageProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function coverageProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, [...nameProblems(data as Coverage), ...documentProblems(data)]);
}
