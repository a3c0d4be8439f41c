import type { KeyOrder } from '@commensal/schema';

/** What a name of an object comes to: its place among the names, and the names of what stands in it. */
interface Rank {
  readonly rank: number;
  readonly inner: KeyRanks | undefined;
}

/** The names of an object with their places; of one that is not there the place is behind all others. */
export type KeyRanks = ReadonlyMap<string, Rank>;

/**
 * The order of keys of a schema made fast to look up.
 *
 * @example
 * keyRanks({ id: null, size: { low: null, high: null } }).get('size')?.inner?.get('high')?.rank; // 1
 */
export function keyRanks(order: KeyOrder): KeyRanks {
  return new Map(Object.entries(order).map(([key, inner], rank) => [key, { rank, inner: inner === null ? undefined : keyRanks(inner) }]));
}

/** The place of a name; behind all others where the schema does not have it. */
export const rankOf = (ranks: KeyRanks | undefined, key: string): number => ranks?.get(key)?.rank ?? Number.POSITIVE_INFINITY;
