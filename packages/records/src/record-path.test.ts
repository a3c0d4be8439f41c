import { records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { filesUnder } from '../../../tests/support/repository.js';
import { recordPath } from './record-path.js';

describe('where a record stands', () => {
  it('is its family and its id', () => {
    expect(recordPath({ id: 'gramma-loreto', taxon: { family: 'Grammatidae' } })).toBe('grammatidae/gramma-loreto.species.json');
  });

  it('is where the sample has it', () => {
    const folder = 'packages/species-sample/records/';
    expect(records.map(recordPath).sort()).toEqual(
      filesUnder(folder)
        .map((file) => file.slice(folder.length))
        .sort(),
    );
  });
});
