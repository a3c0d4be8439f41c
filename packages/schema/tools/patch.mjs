/**
 * JSON Patch (RFC 6902), as far as the negative examples need it: add, replace and remove. Besides, `times` repeats
 * the value (text after text, or the entries of a list), so that an example that is too long stays short to read.
 */

const unescapeKey = (key) => key.replaceAll('~1', '/').replaceAll('~0', '~');

function repeated({ value, times = 1 }) {
  if (times === 1) return structuredClone(value);
  return Array.isArray(value) ? Array.from({ length: times }, () => structuredClone(value)).flat() : value.repeat(times);
}

function apply(document, operation) {
  if (operation.path === '') return repeated(operation);
  const keys = operation.path.split('/').slice(1).map(unescapeKey);
  const last = keys.pop();
  let here = document;
  for (const key of keys) here = here[key];
  if (!Object.hasOwn(here, last) && operation.op !== 'add') throw new Error(`patch: nothing to ${operation.op} at ${operation.path}`);
  if (operation.op === 'remove') {
    if (Array.isArray(here)) here.splice(Number(last), 1);
    else delete here[last];
  } else if (operation.op === 'add' && Array.isArray(here)) {
    here.splice(last === '-' ? here.length : Number(last), 0, repeated(operation));
  } else {
    here[last] = repeated(operation);
  }
  return document;
}

/** A copy of the document with the operations done to it. */
export function patched(document, operations) {
  return operations.reduce(apply, structuredClone(document));
}
