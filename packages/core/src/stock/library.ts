import type { SpeciesRecord, StandIns } from '@commensal/schema';

/** The species records to judge by, and the tables that fill their gaps. */
export interface Library {
  readonly records: ReadonlyMap<string, SpeciesRecord>;
  readonly standIns?: StandIns | undefined;
  /** Release of the data, for the result's `versions`. */
  readonly release?: string | undefined;
}

/**
 * A library from a list of records.
 *
 * @throws RangeError when two records have one id.
 */
export function libraryOf(records: Iterable<SpeciesRecord>, standIns?: StandIns, release?: string): Library {
  const byId = new Map<string, SpeciesRecord>();
  for (const record of records) {
    if (byId.has(record.id)) throw new RangeError(`libraryOf: expected every id once, received "${record.id}" twice`);
    byId.set(record.id, record);
  }
  return { records: byId, standIns, release };
}

/** The record of an id, following `replacedBy`; undefined when there is none. */
export function recordOf(library: Library, id: string): SpeciesRecord | undefined {
  let record = library.records.get(id);
  const seen = new Set<string>([id]);
  while (record?.replacedBy !== undefined && !seen.has(record.replacedBy)) {
    seen.add(record.replacedBy);
    record = library.records.get(record.replacedBy) ?? record;
  }
  return record;
}
