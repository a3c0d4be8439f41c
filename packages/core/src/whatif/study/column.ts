/** One column of the rows of a study. A row holds one double a column; NaN where there is nothing to tell. */
export interface Column {
  readonly name: string;
  /** `day`: whole days after the day of the situation. `code`: place in `codes`. */
  readonly kind: 'number' | 'integer' | 'day' | 'code';
  /** UCUM code; undefined for codes. */
  readonly unit?: string;
  readonly codes?: readonly string[];
  readonly of: 'scenario' | 'variable' | 'output';
  readonly description: string;
}

/**
 * Ids as part of the name of a column: small letters, digits and strokes below.
 *
 * @example
 * columnName('rock-crowding'); // 'rock_crowding'
 */
export const columnName = (...ids: readonly string[]): string => ids.map((id) => id.toLowerCase().replace(/[^a-z0-9]+/g, '_')).join('_');
