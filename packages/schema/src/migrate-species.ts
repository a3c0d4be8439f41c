import { inDocumentOrder } from './in-document-order.js';
import { from09To10 } from './migrations/0.9-to-1.0.js';
import type { Migration } from './migrations/migration.js';
import type { Problem } from './problem.js';
import { versionOf } from './schema-version.js';

/** Every migration of species records, oldest first; each begins where the one before it ends. */
export const speciesMigrations: readonly Migration[] = [from09To10];

/** What came of bringing a species record to the present version of the schema. */
export interface MigratedSpecies {
  /** The record after the last step; the document itself where there was nothing to do. */
  readonly document: unknown;
  /** The steps taken, such as "0.9 to 1.0"; empty where there was nothing to do. */
  readonly steps: readonly string[];
  /** What could not be carried over as it was: by its place in the document as it came in, where the first step says it. */
  readonly notices: readonly Problem[];
}

/**
 * Brings a species record of an earlier version to the present one. Nothing is lost: what has no place any more is
 * kept under `extensions`, with a notice. The result is to be judged by `speciesProblems`, as a mistake of the
 * record stays one. A record of the present version, or of none that is known, comes back as it is.
 *
 * @example
 * const { document, steps, notices } = migrateSpecies(JSON.parse(text));
 */
export function migrateSpecies(document: unknown): MigratedSpecies {
  const steps: string[] = [];
  const notices: Problem[] = [];
  let here = document;
  for (const { from, to, migrate } of speciesMigrations) {
    if (versionOf(here, 'species') !== from) continue;
    const step = migrate(here as Readonly<Record<string, unknown>>);
    steps.push(`${from} to ${to}`);
    notices.push(...inDocumentOrder(here, step.notices));
    here = step.document;
  }
  return { document: here, steps, notices };
}
