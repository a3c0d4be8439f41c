/** The first place at which a text is spaced otherwise than it should be. */
export interface Misspaced {
  readonly offset: number;
  readonly found: string;
  readonly allowed: string;
}

/** Characters of a line that are shown. */
const SHOWN = 40;

const lineAt = (text: string, from: number): string => text.slice(from).split(/\r|\n/, 1)[0] ?? '';
const quoted = (line: string): string => `“${line.length > SHOWN ? `${line.slice(0, SHOWN)}...` : line}”`;
const indentOf = (line: string): string => /^[ \t]*/.exec(line)?.[0] ?? '';

function indentWords(indent: string): string {
  if (indent === '') return 'not indented';
  if (indent.includes('\t')) return 'indented with tabs';
  return indent.length === 1 ? 'indented by 1 space' : `indented by ${indent.length} spaces`;
}

/**
 * Where and how a text first differs from itself as it should be spaced; undefined where it does not.
 *
 * @example
 * misspaced('{\n    "a": 1\n}\n', '{\n  "a": 1\n}\n')?.found; // 'the line is indented by 4 spaces'
 */
export function misspaced(text: string, right: string): Misspaced | undefined {
  if (text === right) return undefined;
  let offset = 0;
  while (offset < text.length && text[offset] === right[offset]) offset += 1;
  if (text[offset] === '\r') return { offset, found: 'the line ends in a carriage return', allowed: 'lines end in a line feed alone' };
  if (offset === text.length) return { offset, found: 'the last line has no end', allowed: 'a line feed ends the file' };
  if (offset === right.length) {
    return { offset, found: 'more white space follows the end of the record', allowed: 'one line feed ends the file' };
  }
  const from = text.slice(0, offset).lastIndexOf('\n') + 1;
  const [line, rightLine] = [lineAt(text, from), lineAt(right, from)];
  if (line.trim() === '') return { offset, found: 'the line is empty', allowed: 'no line is empty' };
  const [indent, rightIndent] = [indentOf(line), indentOf(rightLine)];
  if (indent !== rightIndent && offset - from <= Math.max(indent.length, rightIndent.length)) {
    return { offset, found: `the line is ${indentWords(indent)}`, allowed: `it must be ${indentWords(rightIndent)}` };
  }
  if (line.slice(offset - from).trim() === '' && rightLine.trim() === line.trim()) {
    return { offset, found: 'the line ends in white space', allowed: 'lines end behind their last sign' };
  }
  return {
    offset,
    found: `the line is ${quoted(line.trim())}`,
    allowed: `spaced as JSON.stringify does it with two spaces, it is ${quoted(rightLine.trim())}`,
  };
}
