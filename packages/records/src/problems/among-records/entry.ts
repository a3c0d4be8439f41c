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

/** The ids that a record may be looked for by: its own, and the one its name makes, for an id that is misspelt is told by itself. */
export const idsOf = ({ id, taxon }: SpeciesRecord): readonly string[] => [id, taxon.scientificName.toLowerCase().replaceAll(' ', '-')];

/** The genus that its name begins with. */
export const genusOf = ({ taxon }: SpeciesRecord): string => taxon.scientificName.split(' ')[0] ?? taxon.genus;

export function collectionOf(entries: readonly RecordEntry[]): Collection {
  const byId = new Map<string, RecordEntry>();
  const byName = new Map<string, RecordEntry>();
  const byGenus = new Map<string, RecordEntry[]>();
  const own: RecordEntry[] = [];
  const taken = new Set<string>();
  for (const entry of entries) {
    const { id, taxon } = entry.record;
    if (taken.has(id)) continue;
    taken.add(id);
    own.push(entry);
    for (const each of idsOf(entry.record)) if (!byId.has(each)) byId.set(each, entry);
    byName.set(taxon.scientificName, entry);
    // A genus that does not agree with the name is told by itself.
    const name = genusOf(entry.record);
    const genus = byGenus.get(name);
    if (genus === undefined) byGenus.set(name, [entry]);
    else genus.push(entry);
  }
  return { entries: own, byId, byName, byGenus };
}
