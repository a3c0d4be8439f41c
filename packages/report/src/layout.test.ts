import { describe, expect, it, test } from 'vitest';
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

describe('a script without spaces', () => {
  const sentence = 'この水槽では、体高1.4 cmの魚を飲み込むことができます。';
  const lines = paragraph(sentence.repeat(6), 4).split('\n');
  // Kana, kanji and their signs take two columns each.
  const columnsOf = (line: string): number =>
    [...line].reduce((sum, sign) => sum + (/[\u3000-\u30FF\u4E00-\u9FFF]/u.test(sign) ? 2 : 1), 0);

  it('is set within the columns, and nothing of it is lost', () => {
    expect(lines.length).toBeGreaterThan(2);
    expect(lines.filter((line) => columnsOf(line) > COLUMNS)).toEqual([]);
    expect(lines.map((line) => line.slice(4)).join('')).toBe(sentence.repeat(6));
  });

  it('starts no line with a stop, and parts no number from its unit', () => {
    expect(lines.filter((line) => /^ {4}[、。]/u.test(line))).toEqual([]);
    expect(lines.filter((line) => /\d$/.test(line))).toEqual([]);
  });

  it('opens and closes brackets on the line of their words, and starts none with a slash', () => {
    const figures = paragraph('【クマノミ】食べる側の長さ：12 cm／口に入る体高：2 cm／'.repeat(8), 4).split('\n');
    expect(figures.length).toBeGreaterThan(3);
    expect(figures.filter((line) => /^ {4}[／】]|【$/u.test(line))).toEqual([]);
  });
});
