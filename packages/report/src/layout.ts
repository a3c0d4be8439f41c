import { widthOf } from './width.js';
import { wrapWords } from './wrap-words.js';

/** Columns of a page of plain text. */
export const COLUMNS = 88;

/**
 * A paragraph set within the columns, each line indented.
 *
 * @example
 * paragraph('one two', 4); // '    one two'
 */
export function paragraph(text: string, indent: number): string {
  return set(text, ' '.repeat(indent), ' '.repeat(indent));
}

/** The same with a dash before it, for one of several. */
export const item = (text: string, indent: number): string => set(text, `${' '.repeat(indent)}- `, ' '.repeat(indent + 2));

/** A number stays on one line with its unit; the space between them is an ordinary one once the lines are set. */
const ordinary = (text: string): string => text.replaceAll('\u00A0', ' ');

/** A sign of a script that is written without spaces. */
const WIDE = '[\\p{Script=Han}\\u3000-\\u30FF\\uFF01-\\uFF60]';
const wide = new RegExp(WIDE, 'u');

/** What ends no line (a number before its unit or counter among it) and what starts none. */
const OPENING = '[（「『【(\\d\\u00A0]';
const CLOSING = '[、。，．：；／！？）」』】〜ー・ぁぃぅぇぉっゃゅょァィゥェォッャュョ々,.;:)° \\u00A0]';
const BREAK = new RegExp(`(?<= )(?! )|(?<!${OPENING})(?:(?<=${WIDE})|(?=${WIDE}))(?!${CLOSING})`, 'u');

/** Sentences that were put together with a space or a stop of other scripts between them. */
const joined = (text: string): string => text.replace(new RegExp(`(?<=${WIDE})\\. `, 'gu'), '。').replace(/(?<=[、。：）]) /g, '');

/** A text in one line, as it reads once it is set. */
export const unbroken = (text: string): string => ordinary(wide.test(text) ? joined(text) : text);

/** Such a script breaks between nearly any two signs, where the wrapping of other text waits for a space. */
function wrapWide(text: string, columns: number): string[] {
  const lines = [''];
  for (const piece of joined(text).split(BREAK)) {
    const before = lines.at(-1) ?? '';
    if (before === '' || widthOf((before + piece).trimEnd()) <= columns) lines[lines.length - 1] = before + piece;
    else lines.push(piece);
  }
  return lines.map((line) => line.trimEnd());
}

function set(text: string, first: string, next: string): string {
  const columns = COLUMNS - next.length;
  const lines = wide.test(text) ? text.split('\n').flatMap((line) => wrapWide(line, columns)) : wrapWords(text, columns);
  return ordinary(lines.map((line, at) => (at === 0 ? first : next) + line.trimStart()).join('\n'));
}

/** A heading with a line under it. */
export const heading = (text: string): string => `${text}\n${'-'.repeat(Math.min(COLUMNS, widthOf(text)))}`;

/** Parts with an empty line between them; empty parts are left out. */
export const page = (...parts: readonly string[]): string => ordinary(`${parts.filter((part) => part !== '').join('\n\n')}\n`);
