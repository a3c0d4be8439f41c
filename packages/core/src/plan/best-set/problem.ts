/** A sum that must not get too large. */
export interface Limit {
  /** Zero or more, one per option. */
  readonly uses: readonly number[];
  readonly most: number;
  /** Holds only where this option is chosen; always where left out. */
  readonly only?: number;
}

/** Options, what they are worth, and what a choice of them has to hold to. */
export interface SetProblem {
  /** Finite, zero or more, one per option; at most 512 options. */
  readonly values: readonly number[];
  /** At most one option of each. */
  readonly groups: readonly (readonly number[])[];
  /** Two options that are never chosen both; an option in conflict with itself is never chosen. */
  readonly conflicts: readonly (readonly [number, number])[];
  /** The uses of what is chosen, summed in the order of the options, are at most `most`. */
  readonly limits: readonly Limit[];
  /** At least one option of each row is chosen; where a row is empty there is no set. */
  readonly musts: readonly (readonly number[])[];
}

/**
 * What is said of a set that holds all constraints: taken; not this very set, though larger and smaller ones may be; or none with all of these
 * options, which must be some of the set's. In place of an option stands a row where any of several does, all of one group.
 */
export type Said = 'taken' | 'not-this' | readonly (number | readonly number[])[];

/** How to search. */
export interface SetSearch {
  /** Most nodes of the search tree, all passes together: a limit that hangs on no clock. One million where left out. */
  readonly mostSteps?: number;
  /** Asked at every node and before every set that is offered; true ends the search. */
  readonly isOver?: () => boolean;
  /**
   * Has the last word on every set that is worth more than the best taken so far, or as much while `ties` says so. Sets come as sorted option
   * numbers, each once at most, those worth most first; where many were turned down, a few smaller ones are offered in between, so that there is
   * something to show early.
   */
  readonly say?: (options: readonly number[], value: number) => Said;
  /** Whether sets worth as much as the best taken are still wanted; asked as the search goes. Never where left out. */
  readonly ties?: () => boolean;
}

/** The best set, and how sure it is. */
export interface BestSet {
  /** Sorted; the last that was taken. Undefined where there is none, or none was found. */
  readonly options: readonly number[] | undefined;
  /** Sum of the values in the order of the options; minus infinity without a set. */
  readonly value: number;
  /** No better set exists. */
  readonly proven: boolean;
  /** No set is worth more than this; `value` where proven. */
  readonly bound: number;
  /** Nodes of the search tree. */
  readonly steps: number;
}

const MOST_OPTIONS = 512;

const refuse = (expected: string, received: unknown): never => {
  throw new RangeError(`bestSet: expected ${expected}, received ${String(received)}`);
};

/** Throws a RangeError where a problem is not one. */
export function checkProblem({ values, groups, conflicts, limits, musts }: SetProblem): void {
  if (values.length > MOST_OPTIONS) refuse(`at most ${MOST_OPTIONS} options`, values.length);
  for (const value of values) if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) refuse('values that are finite and at least 0', value);
  for (const rows of [groups, conflicts, musts]) for (const row of rows) for (const option of row) checkOption(option, values.length);
  for (const { uses, most, only } of limits) {
    if (uses.length !== values.length) refuse('a use for each option', `${uses.length} for ${values.length}`);
    for (const use of uses) if (!(use >= 0 && use < Number.POSITIVE_INFINITY)) refuse('uses that are finite and at least 0', use);
    if (Number.isNaN(most)) refuse('a limit that is a number', most);
    if (only !== undefined) checkOption(only, values.length);
  }
}

function checkOption(option: number, count: number): void {
  if (!(Number.isInteger(option) && option >= 0 && option < count)) refuse(`option numbers from 0 to ${count - 1}`, option);
}

/** Throws a RangeError where what is said rules out more than the set it was said of. */
export function checkSaid(none: readonly (readonly number[])[], { groups }: SetProblem, options: readonly number[]): void {
  for (const row of none) {
    if (row.filter((option) => options.includes(option)).length !== 1) refuse('a reason made of options of the set', row);
    const inOneGroup = row.length === 1 || groups.some((group) => row.every((option) => group.includes(option)));
    if (!inOneGroup) refuse('rows of options of one group', row);
  }
}
