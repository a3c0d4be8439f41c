/** Held to `wrap-ansi`, which measures by the tables and sequences of Unicode. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import wrapAnsi from 'wrap-ansi';
import { runs } from '../../../tests/support/runs.js';
import { widthOf } from './width.js';
import { wrapWords } from './wrap-words.js';

/** What wrap-ansi makes of it; lines lose the space before them when they are set. */
const asElsewhere = (text: string, columns: number): string[] => wrapAnsi(text, columns).split('\n');
const unled = (lines: readonly string[]): string[] => lines.map((line) => line.trimStart());

const LATIN = [...'abcdefghijklmnopqrstuvwxyzäöüßéÿžœ0123456789.,;:()%°±×–—’“”«»²³µ€≤'];
const OTHERS = [
  ...'αβγЖдя',
  'e\u0301',
  'n\u0303',
  'в\u0438\u0306',
  '魚',
  'クマ',
  'マ\u3000',
  '（',
  '한',
  '글',
  '\u200B',
  '\u00AD',
  '\u00A0',
];
const PICTURES = ['🐠', '🦐', '❤', '❤\uFE0F', '☂\uFE0F', '👍🏽', '👩\u200D🔬', '🏳\uFE0F\u200D🌈', '🇯🇵', '🇩🇪🇫🇷', '⚠\uFE0F'];

const texts = (signs: readonly string[]): fc.Arbitrary<string> =>
  fc
    .array(fc.array(fc.constantFrom(...signs), { maxLength: 14 }), { maxLength: 30 })
    .chain((words) =>
      fc
        .array(fc.constantFrom(' ', ' ', ' ', '  ', '\n', '\r\n'), { minLength: words.length, maxLength: words.length })
        .map((gaps) => words.map((word, at) => word.join('') + gaps[at]).join('')),
    );

describe('words within columns', () => {
  test.each([
    ['of Latin text', LATIN],
    ['of other scripts', [...LATIN, ...OTHERS]],
    ['with pictures', [...LATIN, ...PICTURES]],
  ])('%s break where wrap-ansi breaks them', (_, signs) => {
    let broken = 0;
    fc.assert(
      fc.property(texts(signs), fc.integer({ min: 1, max: 90 }), (text, columns) => {
        const lines = wrapWords(text, columns);
        expect(unled(lines)).toEqual(unled(asElsewhere(text, columns)));
        broken += lines.length - text.split('\n').length;
      }),
      { numRuns: runs(2000) },
    );
    expect(broken).toBeGreaterThan(1000);
  });

  test('a tab is a space', () => expect(wrapWords('one\ttwo', 3)).toEqual(['one', 'two']));
});

test.each([
  ['', 0],
  ['Wick', 4],
  ['1.4\u00A0cm – “x”', 12],
  ['e\u0301', 1],
  ['魚とエビ。', 10],
  ['🐠', 2],
  ['👩\u200D🔬', 2],
  ['❤', 1],
  ['❤\uFE0F', 2],
  ['🇯🇵', 2],
])('%s takes so many columns: %d', (text, columns) => expect(widthOf(text)).toBe(columns));
