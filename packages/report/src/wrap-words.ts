import { widthOf } from './width.js';

/**
 * The lines of a text within so many columns, broken at spaces; a word that is longer than that stays whole.
 *
 * @example
 * wrapWords('one two three', 8); // ['one two', 'three']
 */
export const wrapWords = (text: string, columns: number): string[] =>
  text
    .normalize()
    .replaceAll('\r\n', '\n')
    .replaceAll('\t', ' ')
    .split('\n')
    .flatMap((line) => wrapLine(line, columns));

function wrapLine(line: string, columns: number): string[] {
  const lines: string[] = [];
  let row = '';
  let taken = 0;
  for (const word of line.split(' ')) {
    const width = widthOf(word);
    if (taken > 0 && (width === 0 || taken + 1 + width <= columns)) {
      row += ` ${word}`;
      taken += 1 + width;
      continue;
    }
    if (taken > 0) lines.push(row);
    row = (taken > 0 ? word : row + word).trimStart();
    taken = widthOf(row);
  }
  return [...lines, row].map((one) => one.replace(/ +$/, ''));
}
