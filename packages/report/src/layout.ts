import wrapAnsi from 'wrap-ansi';

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

function set(text: string, first: string, next: string): string {
  const lines = wrapAnsi(text, COLUMNS - next.length).split('\n');
  return ordinary(lines.map((line, at) => (at === 0 ? first : next) + line.trimStart()).join('\n'));
}

/** A heading with a line under it. */
export const heading = (text: string): string => `${text}\n${'-'.repeat(Math.min(COLUMNS, text.length))}`;

/** Parts with an empty line between them; empty parts are left out. */
export const page = (...parts: readonly string[]): string => ordinary(`${parts.filter((part) => part !== '').join('\n\n')}\n`);
