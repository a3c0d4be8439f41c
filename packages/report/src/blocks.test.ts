import { describe, expect, test } from 'vitest';
import { escaped, heading, item, line, markdownPage, name, paragraph, type Section, textPage, title, under } from './blocks.js';

const sections: Section[] = [
  [title('A tank'), paragraph('First.')],
  ...under('Part', [[name('Day'), line('one', 4), line('two', 4), paragraph('Why.', 6), item('figure', 8)], [], [name('Other')]]),
];

test('plain text sets sections apart by an empty line, and what stands in them in by columns', () => {
  expect(textPage(sections)).toBe('A tank\nFirst.\n\nPart\n----\n  Day\n    one\n    two\n      Why.\n        - figure\n\n  Other\n');
});

test('Markdown has headings of three levels, paragraphs apart, and lists without gaps', () => {
  expect(markdownPage(sections)).toBe('# A tank\n\nFirst.\n\n## Part\n\n### Day\n\n- one\n- two\n\nWhy.\n\n- figure\n\n### Other\n');
});

test('Markdown leaves a paragraph in one line', () => {
  expect(markdownPage([[paragraph('word '.repeat(60).trim())]])).toBe(`${'word '.repeat(60).trim()}\n`);
});

test('a heading over nothing is left out', () => expect(under('Part', [])).toEqual([]));

test('a heading stands in the section that comes first', () => {
  expect(under('Part', [[line('a')], [line('b')]])).toEqual([[heading('Part'), line('a')], [line('b')]]);
});

describe('in Markdown', () => {
  test.each([
    ['an ordinary sentence, with 1.5 cm (about) - and: more!', 'an ordinary sentence, with 1.5 cm (about) - and: more!'],
    ['*Wick*', '\\*Wick\\*'],
    ['a_b_c', 'a\\_b\\_c'],
    ['# One', '\\# One'],
    ['The club #', 'The club \\#'],
    ['- Wick', '\\- Wick'],
    ['+ Wick', '\\+ Wick'],
    ['12. März 2027: 2 × Lampenfisch', '12\\. März 2027: 2 × Lampenfisch'],
    ['3) Wick', '3\\) Wick'],
    ['<b>&amp;</b>', '\\<b\\>\\&amp;\\</b\\>'],
    ['[Wick](http://x)', '\\[Wick\\](http://x)'],
    ['`Wick` \\ ~~Moll~~', '\\`Wick\\` \\\\ \\~\\~Moll\\~\\~'],
    ['  two\n\n  lines ', 'two lines'],
    ['6\u00A0cm', '6 cm'],
    ['それは。 次です。', 'それは。次です。'],
  ])('%j is written %j', (text, written) => expect(escaped(text)).toBe(written));
});
