import { describe, expect, it } from 'vitest';
import { inDocumentOrder } from './in-document-order.js';
import { childPointer, keysOf, placeName, valueAt } from './pointer.js';
import type { Problem } from './problem.js';

/** The document of RFC 6901, section 5. */
const rfc = { foo: ['bar', 'baz'], '': 0, 'a/b': 1, 'c%d': 2, 'm~n': 8, '~1': 9 };

describe('JSON Pointer (RFC 6901)', () => {
  it.each([
    ['', rfc],
    ['/foo', ['bar', 'baz']],
    ['/foo/0', 'bar'],
    ['/', 0],
    ['/a~1b', 1],
    ['/c%d', 2],
    ['/m~0n', 8],
    ['/~01', 9],
    ['/foo/2', undefined],
    ['/foo/0/length', undefined],
    ['/toString', undefined],
  ])('%j points where it should', (pointer, value) => {
    expect(valueAt(rfc, pointer)).toEqual(value);
  });

  it('is built as it is read', () => {
    for (const key of Object.keys(rfc)) expect(keysOf(childPointer('', key))).toEqual([key]);
    expect(childPointer('/wishes', 1)).toBe('/wishes/1');
  });
});

describe('placeName', () => {
  it('says a place as people write it', () => {
    expect(['', '/date', '/wishes/1/species', '/0/id', '/a~1b'].map(placeName)).toEqual([
      'the document',
      'date',
      'wishes[1].species',
      '[0].id',
      'a/b',
    ]);
  });
});

describe('inDocumentOrder', () => {
  it('follows the document, outer places first, lists by number', () => {
    const document = { b: 1, a: { z: 1, y: Array.from({ length: 11 }, () => 0) } };
    const pointers = ['/nowhere', '/a/y/10', '/a/y/2', '/a/z', '/a', '/b', '', '/b/none'];
    const problems = pointers.map((pointer): Problem => ({ code: 'x', pointer, found: '', allowed: '', fix: '' }));
    expect(inDocumentOrder(document, problems).map(({ pointer }) => pointer)).toEqual([
      '',
      '/b',
      '/b/none',
      '/a',
      '/a/z',
      '/a/y/2',
      '/a/y/10',
      '/nowhere',
    ]);
  });
});
