import { childPointer, didYouMean, eachObject, placeName, type SpeciesRecord } from '@commensal/schema';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** The keys that figures of a record name as their source. */
export function sourcesUsed(record: SpeciesRecord): Set<string> {
  const used = new Set<string>();
  eachObject(record, ({ source }) => {
    if (typeof source === 'string') used.add(source);
  });
  return used;
}

/**
 * `unknown-source`: a key that the bibliography does not have. Keys that stand only in the list, or only at a figure, are told by
 * `speciesProblems`.
 */
export const unknownSource: RecordCheck = (record, { bibliography }) => {
  const isKnown = (source: string): boolean => bibliography.some(({ id }) => id === source);
  const strange = record.sources.map((source, index) => ({ source, index })).filter(({ source }) => !isKnown(source));
  if (strange.length === 0) return [];
  const used = sourcesUsed(record);
  return strange
    .filter(({ source }) => used.has(source))
    .map(({ source, index }): Suspicion => {
      const pointer = childPointer('/sources', index);
      const ids = bibliography.map(({ id }) => id);
      return {
        problem: {
          code: 'unknown-source',
          pointer,
          found: `${placeName(pointer)} is "${source}"`,
          allowed: 'it must be the key of an entry in the bibliography',
          fix: didYouMean(source, ids, 'Add the entry to the bibliography, as CSL-JSON, or correct the key.'),
        },
      };
    });
};
