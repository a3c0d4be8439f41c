import { childPointer } from './pointer.js';
import type { ValidationFault } from './validation-fault.js';
import { withoutPlaces } from './without-places.js';

interface Validator {
  (data: unknown): boolean;
  errors?: readonly ValidationFault[] | null;
}

/** A document without what its schema does not know. */
export interface Known {
  readonly document: unknown;
  /** JSON Pointers of what was left out, in the order of the document. */
  readonly unknown: readonly string[];
}

/**
 * Leaves out of a document every property that its validator does not know, however deep. What is known stays as it
 * is, right or wrong.
 *
 * @example
 * onlyKnown(validate, { id: 'a', girth: 3 }) // { document: { id: 'a' }, unknown: ['/girth'] }
 */
export function onlyKnown(validate: Validator, document: unknown): Known {
  if (validate(document)) return { document, unknown: [] };
  const unknown = (validate.errors ?? []).flatMap(({ keyword, instancePath, detail }) =>
    keyword === 'closed' ? [childPointer(instancePath, (detail as { readonly unknown: string }).unknown)] : [],
  );
  // What is left out has nothing more below it: one pass finds all.
  return { document: withoutPlaces(document, new Set(unknown)), unknown };
}
