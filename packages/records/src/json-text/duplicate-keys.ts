import { childPointer, type Problem } from '@commensal/schema';
import { placesIn } from './places.js';
import type { JsonNode } from './tree.js';

/**
 * The names that stand twice in one object, in the order of the text: of the two values `JSON.parse` drops one in silence.
 *
 * @example
 * duplicateKeys('{"a": 1, "a": 2}', jsonTree('{"a": 1, "a": 2}'))[0].column; // 10
 */
export function duplicateKeys(text: string, root: JsonNode): Problem[] {
  const problems: Problem[] = [];
  // Texts without a duplicate, which are nearly all, need no places.
  let places: ReturnType<typeof placesIn> | undefined;
  const placeOf = (offset: number) => {
    places ??= placesIn(text);
    return places(offset);
  };
  const walk = (node: JsonNode, pointer: string): void => {
    if (node.kind === 'array') {
      for (const [index, item] of node.items.entries()) walk(item, childPointer(pointer, index));
      return;
    }
    if (node.kind !== 'object') return;
    const first = new Map<string, number>();
    for (const { key, start, value } of node.members) {
      const before = first.get(key);
      if (before === undefined) first.set(key, start);
      else {
        problems.push({
          code: 'duplicate-key',
          pointer: childPointer(pointer, key),
          ...placeOf(start),
          found: `${JSON.stringify(key)} is given twice, first in line ${placeOf(before).line}`,
          allowed: 'a name may stand once in an object',
          fix: 'Keep one of the two.',
        });
      }
      walk(value, childPointer(pointer, key));
    }
  };
  walk(root, '');
  return problems;
}
