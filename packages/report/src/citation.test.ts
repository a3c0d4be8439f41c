import type { CslItem } from '@commensal/schema';
import { bibliography } from '@commensal/species-sample';
import { expect, test } from 'vitest';
import { cited, citedShort } from './citation.js';

const item = (more: Partial<CslItem>): CslItem => ({ id: 'a', type: 'article-journal', title: 'On Tanks', ...more });

test.each<[string, Partial<CslItem>, string]>([
  ['a title alone', {}, 'On Tanks.'],
  ['author and year', { author: [{ family: 'Reed' }], issued: { 'date-parts': [[1999]] } }, 'Reed (1999). On Tanks.'],
  ['two authors', { author: [{ family: 'Reed', given: 'A.' }, { family: 'Lark' }] }, 'Reed, Lark. On Tanks.'],
  ['many authors', { author: ['Reed', 'Lark', 'Moss', 'Fern'].map((family) => ({ family })) }, 'Reed et al. On Tanks.'],
  ['a list of authors that was cut short', { author: [{ family: 'Reed' }, { literal: 'and others' }] }, 'Reed et al. On Tanks.'],
  ['an institution', { author: [{ literal: 'The Salt Office' }] }, 'The Salt Office. On Tanks.'],
  ['an editor where there is no author', { editor: [{ family: 'Lark' }] }, 'Lark. On Tanks.'],
  [
    'journal, volume, pages and DOI',
    { 'container-title': 'Brine', volume: '4', page: '1-9', DOI: '10.1000/182' },
    'On Tanks. Brine 4:1-9. doi:10.1000/182.',
  ],
  ['a volume without pages', { 'container-title': 'Brine', volume: '4' }, 'On Tanks. Brine 4.'],
  ['a publisher', { publisher: 'Salt Press' }, 'On Tanks. Salt Press.'],
  ['a web address where there is no DOI', { URL: 'https://example.org/tanks' }, 'On Tanks. https://example.org/tanks.'],
  ['a title with a full stop', { title: 'On Tanks.' }, 'On Tanks.'],
  ['a year where nobody signed', { title: 'On Tanks.', issued: { 'date-parts': [[1999]] } }, 'On Tanks (1999).'],
])('%s', (_, more, expected) => expect(cited(item(more))).toBe(expected));

test.each<[string, Partial<CslItem>, string]>([
  ['author and year', { author: [{ family: 'Reed' }], issued: { 'date-parts': [[1999, 5]] } }, 'Reed 1999'],
  ['an author without a year', { author: [{ family: 'Reed' }] }, 'Reed'],
  ['two authors', { author: [{ family: 'Reed' }, { family: 'Lark' }] }, 'Reed & Lark'],
  ['three authors', { author: ['Reed', 'Lark', 'Moss'].map((family) => ({ family })) }, 'Reed et al.'],
  ['a list of authors that was cut short', { author: [{ family: 'Reed' }, { literal: 'and others' }] }, 'Reed et al.'],
  ['the head of the title where nobody signed', { title: 'On Tanks, version 2', issued: { 'date-parts': [[1999]] } }, 'On Tanks 1999'],
])('in short: %s', (_, more, expected) => expect(citedShort(item(more))).toBe(expected));

test('every source of the sample has a name of its own, with which its reference begins', () => {
  const names = bibliography.map(citedShort);
  expect(new Set(names).size).toBe(bibliography.length);
  const heads = names.map((name) => /^[^\s,]+/.exec(name)?.[0] ?? '?');
  expect(bibliography.filter((entry, at) => !cited(entry).startsWith(heads[at] ?? '?'))).toEqual([]);
});

test('every source of the sample can be cited, with one full stop at the end', () => {
  expect(bibliography.length).toBeGreaterThan(10);
  const lines = bibliography.map(cited);
  expect(lines.filter((line) => !/[^.]\.$/.test(line) || /undefined|and others|\s\s|\(\)|\.\./.test(line))).toEqual([]);
});
