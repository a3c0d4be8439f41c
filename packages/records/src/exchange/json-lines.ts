import type { SpeciesRecord } from '@commensal/schema';

/** A copy whose keys stand in the order of their characters, however deep. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([one], [other]) => (one < other ? -1 : 1))
      .map(([key, member]) => [key, sorted(member)]),
  );
}

/**
 * Records as JSON Lines: one a line, in the order of their ids, each in the canonical form of RFC 8785 (keys sorted, no spaces), so
 * that the same records give the same bytes.
 *
 * @example
 * jsonLines(records).split('\n').length - 1; // as many as there are records
 */
export function jsonLines(records: readonly SpeciesRecord[]): string {
  return [...records]
    .sort((one, other) => (one.id < other.id ? -1 : 1))
    .map((record) => `${JSON.stringify(sorted(record))}\n`)
    .join('');
}
