/** Every record of the sample, set back to the draft 0.9 and migrated, is the record again. */
import { migrateSpecies } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import { expect, it } from 'vitest';
import { draftOf } from '../support/draft-0-9.js';

it.each(records)('$id', (record) => {
  const { document, steps, notices } = migrateSpecies(draftOf(record));
  expect(steps).toEqual(['0.9 to 1.0']);
  expect(notices).toEqual([]);
  expect(document).toEqual(record);
  // Records are read by people: the order of what they hold stays, too.
  expect(JSON.stringify(document)).toBe(JSON.stringify(record));
});
