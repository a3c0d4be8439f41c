import type { Library } from '@commensal/core';
import type { SpeciesRecord } from '@commensal/schema';
import { entriesAt, fieldAt } from '../field-at.js';

/** The record of the library that is nearest in kin: of the genus, else of the family; of several the one that tells most. */
export function nearestKin(record: SpeciesRecord, library: Library): SpeciesRecord | undefined {
  const others = [...library.records.values()].filter(
    ({ id, form, deprecatedIn, taxon }) =>
      id !== record.id && form === record.form && deprecatedIn === undefined && taxon.family === record.taxon.family,
  );
  const ofGenus = others.filter(({ taxon }) => taxon.genus === record.taxon.genus);
  const told = (one: SpeciesRecord): number => JSON.stringify(one).length;
  return (ofGenus.length > 0 ? ofGenus : others).sort((one, other) => told(other) - told(one) || (one.id < other.id ? -1 : 1))[0];
}

const lengthOf = (record: SpeciesRecord, field: string): number | undefined => {
  const [entry] = entriesAt(record, field);
  if (entry === undefined) return undefined;
  const { value, low, high } = entry;
  if (typeof value === 'number') return value;
  return typeof low === 'number' && typeof high === 'number' ? (low + high) / 2 : undefined;
};

/** How much longer the record grows than its kin, as far as both tell their greatest length. */
function scaleOf(record: SpeciesRecord, kin: SpeciesRecord): number {
  const [own, theirs] = [lengthOf(record, 'size.maximum'), lengthOf(kin, 'size.maximum')];
  return own === undefined || theirs === undefined ? 1 : own / theirs;
}

const scaled = (part: unknown, scale: number): unknown =>
  typeof part === 'object' && part !== null
    ? Object.fromEntries(
        Object.entries(part).map(([name, value]) => [
          name,
          typeof value === 'number' && ['value', 'low', 'high'].includes(name) ? value * scale : value,
        ]),
      )
    : part;

/** Lengths are taken over in proportion. */
const LENGTHS: ReadonlySet<string> = new Set(['size.maximum', 'size.captiveAdult', 'size.entry', 'growth.asymptoticLength']);

/** The record with some of its missing fields taken from a relative: to ask what would hang on the rest, never to be written down. */
export function likeKin(record: SpeciesRecord, kin: SpeciesRecord, fields: readonly string[]): SpeciesRecord {
  const filled: Record<string, unknown> = { ...record };
  const scale = scaleOf(record, kin);
  for (const field of fields) {
    const theirs = fieldAt(kin, field);
    if (theirs === undefined || fieldAt(record, field) !== undefined) continue;
    const value = LENGTHS.has(field) ? scaled(theirs, scale) : theirs;
    const [group = '', name] = field.split('.');
    filled[group] = name === undefined ? value : { ...(filled[group] as object | undefined), [name]: value };
  }
  return filled as unknown as SpeciesRecord;
}
