/** JSON Pointers (RFC 6901): where something stands in a document. */

/**
 * The pointer of a member of what `pointer` points to.
 *
 * @example
 * childPointer('/wishes', 1) // '/wishes/1'
 */
export function childPointer(pointer: string, key: string | number): string {
  const token = String(key);
  // Hardly any key has to be escaped, and this is asked of every object of ten thousand records.
  const isPlain = !token.includes('~') && !token.includes('/');
  return `${pointer}/${isPlain ? token : token.replaceAll('~', '~0').replaceAll('/', '~1')}`;
}

/**
 * The keys a pointer goes through.
 *
 * @example
 * keysOf('/wishes/1') // ['wishes', '1']
 */
export function keysOf(pointer: string): string[] {
  return pointer
    .split('/')
    .slice(1)
    .map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/**
 * What stands at a pointer, undefined where nothing does.
 *
 * @example
 * valueAt({ wishes: [{ species: 'a' }] }, '/wishes/0/species') // 'a'
 */
export function valueAt(document: unknown, pointer: string): unknown {
  let here = document;
  for (const key of keysOf(pointer)) here = memberOf(here, key);
  return here;
}

function memberOf(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
}

/**
 * A pointer as a person would say it.
 *
 * @example
 * placeName('/wishes/1/species') // 'wishes[1].species'
 */
export function placeName(pointer: string): string {
  const name = keysOf(pointer)
    .map((key) => (/^\d+$/.test(key) ? `[${key}]` : `.${key}`))
    .join('')
    .replace(/^\./, '');
  return name === '' ? 'the document' : name;
}
