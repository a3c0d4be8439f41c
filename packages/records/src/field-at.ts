import { weakest } from '@commensal/core';
import type { Basis, SpeciesRecord } from '@commensal/schema';

/** Something in a record that says what it rests on. */
export interface Grounded {
  readonly basis: Basis;
  readonly source?: string;
  readonly from?: 'genus' | 'family' | 'guild';
  readonly formula?: string;
  readonly note?: string;
  readonly [part: string]: unknown;
}

const isObject = (part: unknown): part is Readonly<Record<string, unknown>> =>
  typeof part === 'object' && part !== null && !Array.isArray(part);

const isGrounded = (part: unknown): part is Grounded => isObject(part) && typeof part.basis === 'string';

/**
 * What stands in a record at a field such as `shape.lowerJaw`; undefined where nothing does.
 *
 * @example
 * fieldAt(record, 'size.maximum'); // { value: 12, unit: 'cm', basis: 'recalled' }
 */
export const fieldAt = (record: SpeciesRecord, field: string): unknown =>
  field.split('.').reduce<unknown>((part, name) => (isObject(part) ? part[name] : undefined), record);

/** The entries of a field, each with its basis: one, or several where the field is a list; none where it is absent or an empty list. */
export function entriesAt(record: SpeciesRecord, field: string): readonly Grounded[] {
  const found = fieldAt(record, field);
  if (Array.isArray(found)) return found.filter(isGrounded);
  return isGrounded(found) ? [found] : [];
}

/** What a field of a record rests on: its basis, `none` for a list that is known to be empty, `absent` where nothing is told. */
export type Standing = Basis | 'none' | 'absent';

/** A list rests on the weakest of its entries. An empty one says that there is nothing, and has no place for a basis. */
export function standingOf(record: SpeciesRecord, field: string): Standing {
  const entries = entriesAt(record, field);
  if (entries.length > 0) return weakest(...entries.map(({ basis }) => basis));
  return Array.isArray(fieldAt(record, field)) ? 'none' : 'absent';
}

/** Every place in a record that says what it rests on, by its path from the record, lists with the index: `conduct.harms.0`. */
export function groundedIn(record: SpeciesRecord): { readonly path: string; readonly entry: Grounded }[] {
  const found: { path: string; entry: Grounded }[] = [];
  const walk = (part: unknown, path: string): void => {
    if (typeof part !== 'object' || part === null) return;
    if (isGrounded(part)) found.push({ path, entry: part });
    for (const [name, inner] of Object.entries(part)) {
      if (path === '' && name === 'extensions') continue;
      walk(inner, path === '' ? name : `${path}.${name}`);
    }
  };
  walk(record, '');
  return found;
}
