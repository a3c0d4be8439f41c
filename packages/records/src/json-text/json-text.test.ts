import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { duplicateKeys } from './duplicate-keys.js';
import { nodeAt } from './node-at.js';
import { placesIn } from './places.js';
import { type JsonNode, jsonTree } from './tree.js';

/** The data of a tree, read off the text at the places that the tree names. */
function dataOf(text: string, node: JsonNode): unknown {
  if (node.kind === 'array') return node.items.map((item) => dataOf(text, item));
  if (node.kind !== 'object') return JSON.parse(text.slice(node.start, node.end)) as unknown;
  return Object.fromEntries(node.members.map(({ key, value }) => [key, dataOf(text, value)]));
}

describe('jsonTree', () => {
  it('reads what JSON.parse reads, spaced in any way', () => {
    fc.assert(
      fc.property(fc.json({ noUnicodeString: false }), fc.constantFrom(0, 1, '\t', 4), (text, space) => {
        const spaced = ` \r\n${JSON.stringify(JSON.parse(text), null, space)}\n`;
        for (const each of [text, spaced]) expect(dataOf(each, jsonTree(each))).toEqual(JSON.parse(each));
      }),
    );
  });

  it('tells numbers from words and texts', () => {
    const root = jsonTree('[-1, 0, true, null, "1"]');
    expect(root.kind === 'array' && root.items.map(({ kind }) => kind)).toEqual(['number', 'number', 'word', 'word', 'text']);
  });

  it('is thrown off by nothing in a text', () => {
    const text = '{"a\\"}": "\\\\", "b": "]\\u0022,{"}';
    expect(dataOf(text, jsonTree(text))).toEqual(JSON.parse(text));
  });
});

describe('places', () => {
  it.each([
    ['LF', '\n'],
    ['CR LF', '\r\n'],
    ['CR', '\r'],
  ])('lines may end in %s', (_, end) => {
    const text = `ab${end}${end}cd`;
    const places = placesIn(text);
    expect(places(text.indexOf('b'))).toEqual({ line: 1, column: 2 });
    expect(places(text.indexOf('d'))).toEqual({ line: 3, column: 2 });
    expect(places(text.length)).toEqual({ line: 3, column: 3 });
  });

  it('are those that counting on the way comes to', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', '\n', 'bc')), (parts) => {
        const text = parts.join('');
        const places = placesIn(text);
        for (let offset = 0; offset <= text.length; offset += 1) {
          const lines = text.slice(0, offset).split('\n');
          expect(places(offset)).toEqual({ line: lines.length, column: (lines.at(-1) ?? '').length + 1 });
        }
      }),
    );
  });
});

describe('nodeAt', () => {
  const text = '{"a/b": [1, {"~": 2}]}';
  it.each([
    ['', 0],
    ['/a~1b/0', 9],
    ['/a~1b/1/~0', 18],
    ['/a~1b/7', 8],
    ['/nobody', 0],
  ])('"%s" is at %d, or the nearest above it is', (pointer, start) => expect(nodeAt(jsonTree(text), pointer).start).toBe(start));
});

describe('duplicateKeys', () => {
  const found = (text: string) =>
    duplicateKeys(text, jsonTree(text)).map(({ pointer, line, column, found: says }) => [pointer, line, column, says]);

  it('are found on every level, under whatever spelling', () => {
    expect(found('{"a": [{"b": 1,\n"\\u0062": 2}], "a": 3, "c": {"a": 1}}')).toEqual([
      ['/a/0/b', 2, 1, '"b" is given twice, first in line 1'],
      ['/a', 2, 16, '"a" is given twice, first in line 1'],
    ]);
  });

  it('are none in other objects', () => expect(found('[{"a": 1}, {"a": {"a": 1}}]')).toEqual([]));
});
