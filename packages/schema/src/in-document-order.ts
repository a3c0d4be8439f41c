import { keysOf } from './pointer.js';
import type { Problem } from './problem.js';

/** The index, level by level, of the key at which a pointer goes on; what is not there comes last. */
function positionOf(document: unknown, pointer: string): number[] {
  let here = document;
  return keysOf(pointer).map((key) => {
    if (typeof here !== 'object' || here === null) return Number.POSITIVE_INFINITY;
    const index = Array.isArray(here) ? Number(key) : Object.keys(here).indexOf(key);
    here = (here as Record<string, unknown>)[key];
    return index < 0 ? Number.POSITIVE_INFINITY : index;
  });
}

function comparePositions(a: readonly number[], b: readonly number[]): number {
  for (const [level, index] of a.entries()) {
    const other = b[level];
    if (other === undefined) return 1;
    if (index !== other) return index < other ? -1 : 1;
  }
  return a.length - b.length;
}

/**
 * The problems in the order in which a reader of the document comes upon them.
 *
 * @example
 * inDocumentOrder({ a: 1, b: 2 }, [problemAtB, problemAtA]) // [problemAtA, problemAtB]
 */
export function inDocumentOrder(document: unknown, problems: readonly Problem[]): Problem[] {
  return problems
    .map((problem) => ({ problem, position: positionOf(document, problem.pointer) }))
    .sort((a, b) => comparePositions(a.position, b.position))
    .map(({ problem }) => problem);
}
