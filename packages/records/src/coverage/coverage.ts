import { BASES } from '@commensal/core';
import type { Coverage, CoverageCounts, SpeciesRecord } from '@commensal/schema';
import { type Standing, standingOf } from '../field-at.js';
import { FIELDS } from './fields.js';

/** From the firmest standing to none at all: the order of columns and of stacks. */
export const STANDINGS: readonly Standing[] = [...BASES, 'none', 'absent'];

const noCounts = (): Record<Standing, number> => ({ measured: 0, derived: 0, imputed: 0, practice: 0, recalled: 0, none: 0, absent: 0 });

function formsOf(records: readonly SpeciesRecord[]): Coverage['forms'] {
  const [first = 'fish', ...more] = [...new Set(records.map(({ form }) => form))].sort();
  return [first, ...more];
}

/**
 * How many records of a set hold each field, by what it rests on; totals over all fields, and for each family.
 * What does not apply to a species, such as a snail's lower jaw, counts as absent with the rest.
 *
 * @throws RangeError for an empty set, of which nothing can be said.
 */
export function coverageOf(records: readonly SpeciesRecord[]): Coverage {
  if (records.length === 0) throw new RangeError('coverageOf: expected at least one record, received none');
  const families = [...new Set(records.map(({ taxon }) => taxon.family))].sort();
  const counted = (over: readonly SpeciesRecord[]): CoverageCounts => {
    const counts = noCounts();
    for (const record of over) for (const field of FIELDS) counts[standingOf(record, field)] += 1;
    return counts;
  };
  const [first = '', ...more] = FIELDS;
  const ofField = (field: string): { field: string; counts: CoverageCounts } => {
    const counts = noCounts();
    for (const record of records) counts[standingOf(record, field)] += 1;
    return { field, counts };
  };
  const ofFamily = (family: string): { family: string; records: number; counts: CoverageCounts } => {
    const members = records.filter(({ taxon }) => taxon.family === family);
    return { family, records: members.length, counts: counted(members) };
  };
  const [firstFamily = '', ...moreFamilies] = families;
  return {
    $schema: 'https://commensal.example/schema/1.0/coverage.schema.json',
    records: records.length,
    forms: formsOf(records),
    fields: [ofField(first), ...more.map(ofField)],
    total: counted(records),
    families: [ofFamily(firstFamily), ...moreFamilies.map(ofFamily)],
  };
}
