/** The book of decided cases names fields of records in which each decision shows: they are there. */
import { records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { textOf } from '../support/repository.js';

const book = textOf('docs/decided-cases.md');
/** The last paragraph of a case, which may run over several lines. */
const places = [...book.matchAll(/^In: ((?:.+\n)+)/gm)].flatMap(([, text = '']) =>
  [...text.matchAll(/`([a-z-]+)`\s`([A-Za-z.]+)`/g)].map(([, id = '', field = '']) => ({ id, field })),
);

describe('the book of decided cases', () => {
  it('names fields of records', () => expect(places.length).toBeGreaterThan(30));

  it.each(places)('$id has $field', ({ id, field }) => {
    let value: unknown = records.find((record) => record.id === id);
    for (const name of field.split('.')) value = (value as Readonly<Record<string, unknown>> | undefined)?.[name];
    expect(value).toBeDefined();
  });
});
