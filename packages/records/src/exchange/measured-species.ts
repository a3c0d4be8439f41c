import { didYouMean, type Problem, type SpeciesRecord, valueWords } from '@commensal/schema';
import type { Row } from './measurement-table.js';

/** A record and the file it stands in. */
export interface RecordFile {
  readonly file: string;
  readonly record: SpeciesRecord;
}

/** Records by their ids, their names and the synonyms that one of them alone has. */
export interface Names {
  readonly byId: ReadonlyMap<string, RecordFile>;
  readonly byName: ReadonlyMap<string, RecordFile>;
}

/** Everything that a row may call a record by. */
export function namesOf(entries: readonly RecordFile[]): Names {
  const synonyms = entries.flatMap((entry) => (entry.record.synonyms ?? []).map((name) => [name, entry] as const));
  const times = new Map<string, number>();
  for (const [name] of synonyms) times.set(name, (times.get(name) ?? 0) + 1);
  return {
    byId: new Map(entries.map((entry) => [entry.record.id, entry])),
    byName: new Map([
      ...synonyms.filter(([name]) => times.get(name) === 1),
      ...entries.map((entry) => [entry.record.taxon.scientificName, entry] as const),
    ]),
  };
}

/** The record that a row is about, or why there is none. */
export function recordOfRow(row: Row, { byId, byName }: Names): RecordFile | Problem {
  const id = row.cells.get('id');
  const name = row.cells.get('scientificName');
  if (id === undefined && name === undefined) {
    return row.problem('scientificName', {
      code: 'no-species',
      found: 'the row names no species',
      allowed: 'it must have an id or a scientific name',
      fix: 'Fill one of the two.',
    });
  }
  const unknown = (column: string, given: string, known: ReadonlyMap<string, RecordFile>): Problem =>
    row.problem(column, {
      code: 'unknown-species',
      found: `${column} is ${valueWords(given)}`,
      allowed: `none of the ${byId.size} records at hand has it`,
      fix: didYouMean(given, [...known.keys()], 'Write the record first, with "commensal records new".'),
    });
  const byItsId = id === undefined ? undefined : byId.get(id);
  const byItsName = name === undefined ? undefined : byName.get(name);
  if (id !== undefined && byItsId === undefined) return unknown('id', id, byId);
  if (name !== undefined && byItsName === undefined) return unknown('scientificName', name, byName);
  if (byItsId !== undefined && byItsName !== undefined && byItsId !== byItsName) {
    return row.problem('scientificName', {
      code: 'name-mismatch',
      found: `scientificName is ${valueWords(name)}, id is ${valueWords(id)}`,
      allowed: 'both must be of one record',
      fix: 'Correct the one that is wrong.',
    });
  }
  return (byItsId ?? byItsName) as RecordFile;
}
