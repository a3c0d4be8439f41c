import { parse } from '@humanwhocodes/momoa';
import { duplicateKeys, jsonText, type JsonNode, jsonTree, nodeAt, placesIn } from '@commensal/records';
import type { Problem } from '@commensal/schema';
import { BadInput } from './failure.js';

/** A parsed document that knows where in its text each value stands. */
export interface Parsed {
  readonly file: string;
  readonly data: unknown;
  /** The text is just what `jsonText` makes of the data. */
  readonly isAsPrinted: boolean;
  /** The problem with file, line and column of its pointer. */
  locate(problem: Problem): Problem;
}

/**
 * Parses JSON. Names given twice in one object are an error here: one of the two values would be lost in silence.
 *
 * @throws BadInput `not-json` or `duplicate-key`, with line and column.
 */
export function parseJson(withMark: string, file: string): Parsed {
  // Some editors put a byte order mark in front.
  const text = withMark.replace(/^\uFEFF/, '');
  const data = parsedData(text, file);
  // Most documents have nothing to be located.
  let tree: JsonNode | undefined;
  const root = (): JsonNode => {
    tree ??= treeOf(text, file);
    return tree;
  };
  let places: ReturnType<typeof placesIn> | undefined;
  const isPrinted = isAsPrinted(text, data);
  const duplicates = isPrinted ? [] : duplicateKeys(text, root());
  if (duplicates.length > 0) throw new BadInput(duplicates.map((problem) => ({ ...problem, file })));
  return {
    file,
    data,
    isAsPrinted: isPrinted && text === withMark,
    locate: (problem) => {
      places ??= placesIn(text);
      return { ...problem, file, ...places(nodeAt(root(), problem.pointer).start) };
    },
  };
}

/** A text that is just what its data print cannot hold a name twice, and is known for one faster than it is read. */
function isAsPrinted(text: string, data: unknown): boolean {
  try {
    return !text.includes('\r') && jsonText(data) === text;
  } catch {
    // Too deep to be printed: it will be too deep to be read.
    return false;
  }
}

function treeOf(text: string, file: string): JsonNode {
  try {
    return jsonTree(text);
  } catch (error) {
    if (error instanceof RangeError) throw tooDeep(file);
    throw error;
  }
}

const tooDeep = (file: string): BadInput =>
  notJson(file, {}, 'its brackets stand deeper in each other than any document needs', 'Take some of them out.');

function parsedData(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw whyNotJson(text, file, error as Error);
  }
}

/** `JSON.parse` words and places its errors otherwise in each version of Node: a second reader says what is wrong. */
function whyNotJson(text: string, file: string, refusal: Error): BadInput {
  if (text.trim() === '') {
    const found = 'the file is empty';
    return new BadInput([
      { code: 'empty-file', pointer: '', file, found, allowed: 'it must hold a document in JSON', fix: 'Fill it, or name another file.' },
    ]);
  }
  try {
    parse(text, { mode: 'json', ranges: true });
  } catch (error) {
    if (error instanceof RangeError) return tooDeep(file);
    const { line, column } = error as { line?: number; column?: number };
    if (line === undefined || column === undefined) throw error;
    const rest =
      text
        .split(/\r\n|\r|\n/)
        [line - 1]?.slice(column - 1)
        .trim() ?? '';
    // A bracket that nothing follows is blamed itself.
    const ends = rest === '' || /^[[{]$/.test(rest);
    const found = ends ? 'the text ends, or its line does, where more must follow' : `“${cut(rest)}” cannot stand here`;
    return notJson(file, { line, column }, found);
  }
  // That reader lets line breaks within a text pass, which JSON does not.
  const at = Number(/position (\d+)/.exec(refusal.message)?.[1] ?? Number.NaN);
  return notJson(file, Number.isNaN(at) ? {} : placesIn(text)(at), 'a text in quotes holds a line break or another control character');
}

/** Characters of the text that are shown where it goes wrong. */
const SHOWN = 24;

const cut = (rest: string): string => (rest.length > SHOWN ? `${rest.slice(0, SHOWN)}...` : rest);

const LOOK = 'Look here and just before for a comma, a quote or a bracket too many or too few.';

const notJson = (file: string, place: { readonly line?: number; readonly column?: number }, found: string, fix: string = LOOK): BadInput =>
  new BadInput([
    {
      code: 'not-json',
      pointer: '',
      file,
      ...place,
      found,
      allowed: 'the file must be JSON',
      fix,
    },
  ]);
