import { documentProblems, duplicateProblems } from './document-problems.js';
import type { StandIns } from './generated/stand-ins.js';
import { validate } from './generated/stand-ins-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

function idProblems({ groups, errors }: StandIns): Problem[] {
  const fix = 'Keep one of them.';
  return [
    ...duplicateProblems(
      groups.map(({ rank, name }, index) => ({ id: `${rank} ${name}`, pointer: `/groups/${index}` })),
      fix,
    ),
    ...duplicateProblems(
      errors.map(({ figure, rank }, index) => ({ id: `${figure} from ${rank}`, pointer: `/errors/${index}` })),
      fix,
    ),
  ];
}

/**
 * What is wrong with a table of stand-ins, in the order of the document; nothing where it is right. What no schema
 * can say is looked at once the schema holds.
 *
 * @example
 * standInsProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function standInsProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  return inDocumentOrder(data, [...idProblems(data as StandIns), ...documentProblems(data)]);
}
