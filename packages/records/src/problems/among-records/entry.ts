import type { Problem, SpeciesRecord } from '@commensal/schema';
import type { ProblemContext } from '../problem-context.js';

/** A record with the file it stands in, as a path with `/` of which the last two parts count. */
export interface RecordEntry {
  readonly file: string;
  readonly record: SpeciesRecord;
}

/** The records by what others call them. Of two with one id the first counts; the second is told. */
export interface Collection {
  readonly entries: readonly RecordEntry[];
  readonly byId: ReadonlyMap<string, RecordEntry>;
  readonly byName: ReadonlyMap<string, RecordEntry>;
  readonly byGenus: ReadonlyMap<string, readonly RecordEntry[]>;
}

/** A problem that shows between records, with the record it is told of. */
export interface Told {
  readonly entry: RecordEntry;
  readonly problem: Problem;
}

/** Looks at all records at once. */
export type CollectionCheck = (collection: Collection, context: ProblemContext) => readonly Told[];

export function collectionOf(entries: readonly RecordEntry[]): Collection {
  const byId = new Map<string, RecordEntry>();
  const byName = new Map<string, RecordEntry>();
  const byGenus = new Map<string, RecordEntry[]>();
  const own: RecordEntry[] = [];
  for (const entry of entries) {
    const { id, taxon } = entry.record;
    if (byId.has(id)) continue;
    own.push(entry);
    byId.set(id, entry);
    byName.set(taxon.scientificName, entry);
    const genus = byGenus.get(taxon.genus);
    if (genus === undefined) byGenus.set(taxon.genus, [entry]);
    else genus.push(entry);
  }
  return { entries: own, byId, byName, byGenus };
}
