import { documentProblems, duplicateProblems } from './document-problems.js';
import type { StudySummaryDocument } from './generated/study-summary.js';
import { validate } from './generated/study-summary-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

/**
 * What is wrong with the summary of a study, in the order of the document; nothing where it is right. What no schema can say is looked at once the
 * schema holds.
 *
 * @example
 * studySummaryProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function studySummaryProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  const { outputs } = data as StudySummaryDocument;
  const columns = outputs.map(({ column }, index) => ({ id: column, pointer: `/outputs/${index}/column` }));
  return inDocumentOrder(data, [...duplicateProblems(columns, 'Tell of each column once.'), ...documentProblems(data)]);
}
