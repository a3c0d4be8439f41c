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
export function parseJson(text: string, file: string): Parsed {
  const document = parsedTree(text, file);
  const duplicates = duplicateKeys(document.body, '');
  if (duplicates.length > 0) throw new BadInput(duplicates.map((problem) => ({ ...problem, file })));
  return {
    file,
    data: JSON.parse(text.replace(/^\uFEFF/, '')),
    locate: (problem) => {
      const { line, column } = nodeAt(document.body, problem.pointer).loc.start;
      return { ...problem, file, line, column };
    },
  };
}

function parsedTree(text: string, file: string): DocumentNode {
  try {
    return parse(text.replace(/^\uFEFF/, ''), { mode: 'json', ranges: true });
  } catch (error) {
    const { line, column } = error as { line?: number; column?: number };
    throw new BadInput([
      {
        code: text.trim() === '' ? 'empty-file' : 'not-json',
        pointer: '',
        file,
        ...(line === undefined ? {} : { line }),
        ...(column === undefined ? {} : { column }),
        found: text.trim() === '' ? 'the file is empty' : (error as Error).message.replace(/\s*\(\d+:\d+\)$/, '').replace(/\.$/, ''),
        allowed: 'JSON',
        fix: 'Look just before this place for a comma, a quote or a bracket too many or too few.',
      },
    ]);
  }
}

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
              allowed: 'each name once in an object',
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
