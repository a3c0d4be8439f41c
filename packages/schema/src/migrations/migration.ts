import type { Problem } from '../problem.js';

export type Members = Readonly<Record<string, unknown>>;

/** A document brought one version further. */
export interface Step {
  readonly document: Members;
  /** What could not be carried over as it was, by its place in the document before the step. */
  readonly notices: readonly Problem[];
}

/** How documents of one version become documents of the next. */
export interface Migration {
  readonly from: string;
  readonly to: string;
  readonly migrate: (document: Members) => Step;
}
