import { validate } from './generated/species-validator.js';
import type { SpeciesRecord } from './generated/species.js';
import { inDocumentOrder } from './in-document-order.js';
import { placeName, valueAt } from './pointer.js';
import type { Problem } from './problem.js';
import { isLaterMinor, schemaAddress, versionOf } from './schema-version.js';
import { sourcesUsedIn } from './sources-used.js';
import { speciesProblems } from './species-problems.js';
import { onlyKnown } from './unknown-places.js';
import { valueWords } from './words.js';

/** What came of reading a species record: the record, or what is wrong with it. */
export interface SpeciesRead {
  /** The record as this version knows it; undefined where there are problems. */
  readonly record: SpeciesRecord | undefined;
  /** What was left out because a later version brought it, in the order of the document. */
  readonly notices: readonly Problem[];
  readonly problems: readonly Problem[];
}

/** A source that only what was left out had named is no longer used, and that is no mistake of the record. */
function withSourcesInUse(known: unknown, whole: unknown): unknown {
  const { sources } = known as { readonly sources?: unknown };
  if (!Array.isArray(sources)) return known;
  const before = sourcesUsedIn(whole);
  const after = sourcesUsedIn(known);
  const kept = sources.filter((source) => after.has(source) || !before.has(source));
  return kept.length === sources.length ? known : { ...(known as object), sources: kept };
}

function readLater(document: object, version: string): SpeciesRead {
  const own = { ...document, $schema: schemaAddress('species') };
  const { document: known, unknown } = onlyKnown(validate, own);
  const record = unknown.length === 0 ? own : withSourcesInUse(known, own);
  const problems = speciesProblems(record).map((problem) => ({
    ...problem,
    fix: `${problem.fix} Where it is right in schema ${version}, upgrade commensal.`,
  }));
  const notices = unknown.map(
    (pointer): Problem => ({
      code: 'later-property',
      pointer,
      found: `${placeName(pointer)} is ${valueWords(valueAt(document, pointer))}`,
      allowed: `the record follows schema ${version}, and this version of commensal does not know the property`,
      fix: 'It is left out. Upgrade commensal to have it read, or correct its name.',
    }),
  );
  return {
    record: problems.length === 0 ? (record as SpeciesRecord) : undefined,
    notices: inDocumentOrder(document, notices),
    problems,
  };
}

/**
 * Reads a species record for use, tolerantly: one that follows a later minor version of the schema may hold properties
 * that this version does not know, and they are left out with a notice each. What this version knows is judged
 * as strictly as `speciesProblems` does, which takes records of this version only.
 *
 * @example
 * const { record, notices, problems } = readSpecies(JSON.parse(text));
 */
export function readSpecies(document: unknown): SpeciesRead {
  const version = versionOf(document, 'species');
  if (version !== undefined && isLaterMinor(version)) return readLater(document as object, version);
  const problems = speciesProblems(document);
  return { record: problems.length === 0 ? (document as SpeciesRecord) : undefined, notices: [], problems };
}
