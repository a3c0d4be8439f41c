import { keysOf } from '@commensal/schema';
import type { JsonNode } from './tree.js';

/**
 * The node that a pointer points to, or the nearest one above it that is there.
 *
 * @example
 * nodeAt(jsonTree('{"a": [1, 2]}'), '/a/1').start; // 10
 */
export function nodeAt(root: JsonNode, pointer: string): JsonNode {
  let node = root;
  for (const key of keysOf(pointer)) {
    let next: JsonNode | undefined;
    if (node.kind === 'object') next = node.members.find((member) => member.key === key)?.value;
    else if (node.kind === 'array') next = node.items[Number(key)];
    if (next === undefined) return node;
    node = next;
  }
  return node;
}
