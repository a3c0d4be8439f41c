import { type DocumentNode, parse, type ValueNode } from '@humanwhocodes/momoa';
import type { Problem } from '@commensal/schema';
import { BadInput } from './failure.js';

/** A parsed document that knows where in its text each value stands. */
export interface Parsed {
  readonly file: string;
  readonly data: unknown;
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
  const document = parsedTree(text, file);
  const duplicates = duplicateKeys(document.body, '');
  if (duplicates.length > 0) throw new BadInput(duplicates.map((problem) => ({ ...problem, file })));
  return {
    file,
    data: parsedData(text, file),
    locate: (problem) => {
      const { line, column } = nodeAt(document.body, problem.pointer).loc.start;
      return { ...problem, file, line, column };
    },
  };
}

function parsedTree(text: string, file: string): DocumentNode {
  if (text.trim() === '') {
    const found = 'the file is empty';
    throw new BadInput([
      { code: 'empty-file', pointer: '', file, found, allowed: 'it must hold a document in JSON', fix: 'Fill it, or name another file.' },
    ]);
  }
  try {
    return parse(text, { mode: 'json', ranges: true });
  } catch (error) {
    if (error instanceof RangeError)
      throw notJson(file, {}, 'its brackets stand deeper in each other than any document needs', 'Take some of them out.');
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
    throw notJson(file, { line, column }, found);
  }
}

/** The tree lets line breaks within a text pass, which JSON does not. */
function parsedData(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const at = Number(/position (\d+)/.exec((error as Error).message)?.[1] ?? Number.NaN);
    const before = text.slice(0, at).split(/\r\n|\r|\n/);
    const place = Number.isNaN(at) ? {} : { line: before.length, column: (before.at(-1) ?? '').length + 1 };
    throw notJson(file, place, 'a text in quotes holds a line break or another control character');
  }
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

const keyOf = (name: { readonly type: string; readonly value?: string; readonly name?: string }): string => name.value ?? name.name ?? '';

const escaped = (key: string): string => key.replaceAll('~', '~0').replaceAll('/', '~1');

function duplicateKeys(node: ValueNode, pointer: string): Problem[] {
  if (node.type === 'Array') return node.elements.flatMap((element, index) => duplicateKeys(element.value, `${pointer}/${index}`));
  if (node.type !== 'Object') return [];
  const lines = new Map<string, number>();
  return node.members.flatMap((member) => {
    const key = keyOf(member.name);
    const { line, column } = member.name.loc.start;
    const before = lines.get(key);
    lines.set(key, line);
    const own: Problem[] =
      before === undefined
        ? []
        : [
            {
              code: 'duplicate-key',
              pointer: `${pointer}/${escaped(key)}`,
              line,
              column,
              found: `"${key}" is given twice, first in line ${before}`,
              allowed: 'a name may stand once in an object',
              fix: 'Keep one of the two.',
            },
          ];
    return [...own, ...duplicateKeys(member.value, `${pointer}/${escaped(key)}`)];
  });
}

/** The node of a JSON Pointer, or the nearest one above it that is there. */
function nodeAt(root: ValueNode, pointer: string): { readonly loc: ValueNode['loc'] } {
  let node: ValueNode = root;
  for (const part of pointer.split('/').slice(1)) {
    const key = part.replaceAll('~1', '/').replaceAll('~0', '~');
    let next: ValueNode | undefined;
    if (node.type === 'Object') next = node.members.find((member) => keyOf(member.name) === key)?.value;
    else if (node.type === 'Array') next = node.elements[Number(key)]?.value;
    if (next === undefined) return node;
    node = next;
  }
  return node;
}
