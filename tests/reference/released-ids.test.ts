/** Ids of records are never deleted, and never change the release they came with: the list of what was released is held against the records. */
import { libraryOf, recordOf } from '@commensal/core';
import { records, release } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { textOf } from '../support/repository.js';

const released: readonly { readonly id: string; readonly addedIn: string }[] = JSON.parse(
  textOf('packages/species-sample/released-ids.json'),
);
const byId = new Map(records.map((record) => [record.id, record]));
const library = libraryOf(records);

describe('the list of released ids', () => {
  it('holds each once, in the order of the alphabet', () => {
    expect(released.length).toBeGreaterThanOrEqual(89);
    const ids = released.map(({ id }) => id);
    expect(ids).toEqual([...new Set(ids)].sort());
  });

  it.each(released)('$id is there, as of release $addedIn', ({ id, addedIn }) => {
    expect(byId.get(id)?.addedIn).toBe(addedIn);
    // Who asks for it gets a record that is in use.
    expect(recordOf(library, id)?.deprecatedIn).toBeUndefined();
  });

  it('lacks no record but those that the next release adds', () => {
    const listed = new Set(released.map(({ id }) => id));
    expect(records.filter(({ id, addedIn }) => !listed.has(id) && addedIn < release).map(({ id }) => id)).toEqual([]);
  });
});
