import { eachObject } from './document-problems.js';

/**
 * The keys of all sources that figures of a document name. What stands in `extensions` does not count.
 *
 * @example
 * sourcesUsedIn({ shape: { bodyDepth: { basis: 'measured', source: 'price-2022' } } }) // Set { 'price-2022' }
 */
export function sourcesUsedIn(document: unknown): Set<string> {
  const used = new Set<string>();
  eachObject(document, ({ source }) => {
    if (typeof source === 'string') used.add(source);
  });
  return used;
}
