/**
 * Something wrong with an input, said to a person: everywhere in the project it has this one shape.
 * `found` and `allowed` are clauses, `fix` is one or two sentences: "`found`; `allowed`. `fix`" reads well.
 *
 * Codes of this package: `missing-property`, `unknown-property`, `needs-also`, `no-number`, `needs-one-of`,
 * `not-allowed-here`, `wrong-type`, `wrong-value`, `not-in-list`, `wrong-form`, `too-small`, `too-large`,
 * `too-short`, `too-long`, `too-few`, `too-many`, `duplicate-item`, `duplicate-id`, `band-order`, `date-order`,
 * `no-such-day`, `unknown-animal`, `source-not-listed`, `source-not-used`, `name-mismatch`, `wrong-count`.
 * Those who read files add `not-json`, `duplicate-key` and others of their own.
 *
 * @example
 * {
 *   code: 'missing-property', pointer: '/tank', found: 'tank has no "water"',
 *   allowed: '"water" must be given', fix: 'Add "water".',
 * }
 */
export interface Problem {
  /** A short word in kebab case, stable from release to release. */
  readonly code: string;
  /** JSON Pointer of the place in the document; empty for the document as a whole. */
  readonly pointer: string;
  /** Line in the file, from 1, where there is a file. */
  readonly line?: number;
  /** Column in the line, from 1, where there is a file. */
  readonly column?: number;
  readonly found: string;
  readonly allowed: string;
  readonly fix: string;
  readonly file?: string;
}
