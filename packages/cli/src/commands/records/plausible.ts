import type { Bibliography, Problem, SpeciesRecord, StandIns } from '@commensal/schema';

/**
 * The one place that knows where the checks of plausibility come from. Until `@commensal/records` has them, nothing is implausible;
 * then this file is `export { collectionProblems, problemCodes, type ProblemContext, recordProblems } from '@commensal/records'`.
 */
export interface ProblemContext {
  readonly bibliography: Bibliography;
  readonly standIns: StandIns;
  /** Name of the file of the bibliography, for what is told of it. */
  readonly bibliographyFile?: string;
}

/** What is implausible in one record. */
export const recordProblems = (_record: SpeciesRecord, _context: ProblemContext): readonly Problem[] => [];

/** What only shows between records. */
export const collectionProblems = (
  _entries: readonly { readonly file: string; readonly record: SpeciesRecord }[],
  _context: ProblemContext,
): readonly Problem[] => [];

/** The codes of both, with their levels and in a few words. */
export const problemCodes: readonly {
  readonly code: string;
  readonly level: 'error' | 'warning';
  readonly foundIn: string;
  readonly title: string;
}[] = [];
