import type { RecordsCheck } from './generated/records-check.js';
import { validate } from './generated/records-check-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

function countProblems({ problems, summary }: RecordsCheck): Problem[] {
  return (['error', 'warning'] as const).flatMap((level) => {
    const count = problems.filter((problem) => problem.level === level).length;
    if (summary[level] === count) return [];
    return [
      {
        code: 'wrong-count',
        pointer: `/summary/${level}`,
        found: `summary.${level} is ${summary[level]}`,
        allowed: `the level of ${count} of the problems is "${level}"`,
        fix: 'Correct the count, or the list.',
      },
    ];
  });
}

/**
 * What is wrong with a report on records, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * recordsCheckProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function recordsCheckProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, countProblems(data as RecordsCheck));
}
