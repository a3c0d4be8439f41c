import { childPointer } from './pointer.js';

/**
 * A copy of a document without what stands at some places. Nothing of the document itself changes.
 *
 * @example
 * withoutPlaces({ id: 'a', girth: 3 }, new Set(['/girth'])) // { id: 'a' }
 */
export function withoutPlaces(document: unknown, places: ReadonlySet<string>, pointer = ''): unknown {
  if (typeof document !== 'object' || document === null) return document;
  if (Array.isArray(document)) return document.map((item, index) => withoutPlaces(item, places, childPointer(pointer, index)));
  const kept: [string, unknown][] = [];
  for (const [key, value] of Object.entries(document)) {
    const place = childPointer(pointer, key);
    if (!places.has(place)) kept.push([key, withoutPlaces(value, places, place)]);
  }
  return Object.fromEntries(kept);
}
