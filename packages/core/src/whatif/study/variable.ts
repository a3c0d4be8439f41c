/** Something that varies from scenario to scenario, as the evaluator sees it: a number, or the place of a word in `words`. */
export interface Variable {
  readonly name: string;
  /** JSON Pointers: `/situation/...` into the situation, `/species/<id>/...` into a record. */
  readonly at: readonly string[];
  /** UCUM code of the unit of its numbers; `d` for days after the day of the situation; undefined for bare numbers and words. */
  readonly unit: string | undefined;
  readonly words: readonly string[] | undefined;
  /**
   * What a figure says besides its number and unit where it is written as a whole, there before or not (length type, `per`, basis); undefined
   * where the members that stand there stay.
   */
  readonly whole: Readonly<Record<string, unknown>> | undefined;
  /** Every number it can take is whole. */
  readonly isWhole: boolean;
  /** Every number it can take is above 0. */
  readonly isPositive: boolean;
}
