import { expect, test } from 'vitest';
import { COLUMNS, heading, item, page, paragraph } from './layout.js';

const long = 'word '.repeat(60).trim();

test('a paragraph is indented and set within the columns', () => {
  const lines = paragraph(long, 4).split('\n');
  expect(lines.length).toBeGreaterThan(1);
  for (const line of lines) expect(line).toMatch(/^ {4}word/);
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(COLUMNS);
});

test('one of several has a dash before its first line', () => {
  const [first, second] = item(long, 2).split('\n');
  expect(first).toMatch(/^ {2}- word/);
  expect(second).toMatch(/^ {4}word/);
});

test('a number is not parted from its unit', () => {
  const text = `${'x'.repeat(COLUMNS - 3)} 12\u00A0cm`;
  expect(paragraph(text, 0)).toBe(`${'x'.repeat(COLUMNS - 3)}\n12 cm`);
});

test('a heading has a line as long as itself', () => expect(heading('Cautions')).toBe('Cautions\n--------'));

test('a page has ordinary spaces only', () => expect(page('1\u00A0March')).toBe('1 March\n'));

test('a page parts its parts by an empty line and leaves out the empty ones', () => expect(page('a', '', 'b')).toBe('a\n\nb\n'));
