import type { CslItem } from '@commensal/schema';
import { expect, test } from 'vitest';
import { bibliography } from '../tests/support/deep.js';
import { referencesIn } from './references.js';

test('only what was named is listed, in alphabetical order, with its remark', () => {
  const references = referencesIn(bibliography);
  expect(references.list()).toEqual([]);
  expect([references.short('reed-1999'), references.short('lark-moss'), references.short('reed-1999')]).toEqual([
    'Reed 1999',
    'Lark & Moss',
    'Reed 1999',
  ]);
  expect(references.list()).toEqual(['Lark, Moss. On Mouths.', 'Reed (1999). On Tanks. [Seen.]']);
});

test('a key without an entry is named and listed as it is', () => {
  const references = referencesIn(bibliography);
  expect(references.short('lost-key')).toBe('lost-key');
  expect(references.list()).toEqual(['lost-key']);
});

test('two sources of one author and year are told apart by their keys', () => {
  const twin: CslItem = {
    id: 'reed-again',
    type: 'book',
    title: 'On Lids',
    author: [{ family: 'Reed' }],
    issued: { 'date-parts': [[1999]] },
  };
  const references = referencesIn([...bibliography, twin]);
  expect(references.short('reed-again')).toBe('Reed 1999 [reed-again]');
  expect(references.short('reed-1999')).toBe('Reed 1999 [reed-1999]');
  expect(references.list()).toEqual(['Reed (1999). On Lids. [reed-again]', 'Reed (1999). On Tanks. [reed-1999] [Seen.]']);
});
