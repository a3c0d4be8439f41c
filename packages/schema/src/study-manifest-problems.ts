import { documentProblems, duplicateProblems } from './document-problems.js';
import type { StudyManifest } from './generated/study-manifest.js';
import { validate } from './generated/study-manifest-validator.js';
import { inDocumentOrder } from './in-document-order.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';

/**
 * What is wrong with the manifest of a study, in the order of the document; nothing where it is right. What no schema can say is looked at once the
 * schema holds.
 *
 * @example
 * studyManifestProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function studyManifestProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  const { columns } = data as StudyManifest;
  const names = columns.map(({ name }, index) => ({ id: name, pointer: `/columns/${index}/name` }));
  return inDocumentOrder(data, [...duplicateProblems(names, 'Give each column a name of its own.'), ...documentProblems(data)]);
}
