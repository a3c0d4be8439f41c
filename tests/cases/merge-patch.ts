/** A value as JSON holds it. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [name: string]: Json };

/** What changes in a JSON document. */
export type Patch = { readonly [name: string]: Json };

/**
 * A document with a patch laid over it, as a JSON Merge Patch (RFC 7396): objects part by part, everything else whole; `null` takes away.
 *
 * @example
 * mergePatch({ a: 1, b: { c: 2, d: 3 } }, { a: null, b: { c: 4 } }); // { b: { c: 4, d: 3 } }
 */
export function mergePatch(document: Json | undefined, patch: Json): Json {
  if (!isObject(patch)) return patch;
  const merged: Record<string, Json> = isObject(document) ? { ...document } : {};
  for (const [name, value] of Object.entries(patch)) {
    if (value === null) delete merged[name];
    else merged[name] = mergePatch(merged[name], value);
  }
  return merged;
}

const isObject = (value: Json | undefined): value is Patch => typeof value === 'object' && value !== null && !Array.isArray(value);
