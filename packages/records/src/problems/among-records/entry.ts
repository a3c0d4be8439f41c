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
  /** How many records of each genus name each family. */
  readonly familiesOf: ReadonlyMap<string, ReadonlyMap<string, number>>;
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

function countsOf(names: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts;
}

const byIdOrder = ({ record: one }: RecordEntry, { record: other }: RecordEntry): number =>
  one.id < other.id ? -1 : one.id > other.id ? 1 : 0;

/** The collection in the order of ids, so that what is told of which record does not hang on the order in which they were read. */
export function collectionOf(entries: readonly RecordEntry[]): Collection {
  const byId = new Map<string, RecordEntry>();
  const byName = new Map<string, RecordEntry>();
  const byGenus = new Map<string, RecordEntry[]>();
  const own: RecordEntry[] = [];
  const taken = new Set<string>();
  for (const entry of [...entries].sort(byIdOrder)) {
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
  const familiesOf = new Map([...byGenus].map(([genus, members]) => [genus, countsOf(members.map(({ record }) => record.taxon.family))]));
  return { entries: own, byId, byName, byGenus, familiesOf };
}
