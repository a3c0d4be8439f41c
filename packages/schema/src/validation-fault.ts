/**
 * What a validator of `generated/` says of one place that breaks one keyword. Keywords are those of JSON Schema,
 * save that `closed` stands for `additionalProperties: false`, `range` for the limits of a number and
 * `characters` for the limits of a text. `problemsOf` turns faults into problems for people.
 *
 * @example
 * { instancePath: '/tank', keyword: 'required', detail: 'water' }
 */
export interface ValidationFault {
  /** JSON Pointer of the place in the document. */
  readonly instancePath: string;
  readonly keyword: string;
  /** What the keyword wanted: the limit, the words, the name of the property. */
  readonly detail: unknown;
  /** `anyOf`, `then` or `propertyNames` where the keyword stands under one of them. */
  readonly within?: string | undefined;
}
