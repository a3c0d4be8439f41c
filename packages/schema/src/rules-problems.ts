import { documentProblems, duplicateProblems } from './document-problems.js';
import type { RuleList } from './generated/rules.js';
import { validate } from './generated/rules-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

function idProblems({ rules }: RuleList): Problem[] {
  return duplicateProblems(
    rules.map(({ id }, index) => ({ id, pointer: `/rules/${index}/id` })),
    'Give one of the rules another id.',
  );
}

/**
 * What is wrong with a list of rules, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * rulesProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function rulesProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, [...idProblems(data as RuleList), ...documentProblems(data)]);
}
