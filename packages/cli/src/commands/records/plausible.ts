import type { RecordCode } from '@commensal/records';
import type { Bibliography, Problem, SpeciesRecord, StandIns } from '@commensal/schema';

/** What records are held against. */
export interface RecordContext {
  readonly bibliography: Bibliography;
  readonly standIns: StandIns;
}

/** The one place that knows where the checks of plausibility come from: until they are here, nothing is implausible. */
export const recordProblems = (_record: SpeciesRecord, _context: RecordContext): readonly Problem[] => [];

/** What only shows between records. */
export const collectionProblems = (
  _entries: readonly { readonly file: string; readonly record: SpeciesRecord }[],
  _context: RecordContext,
): readonly Problem[] => [];

/** The codes of both with their levels. */
export const PLAUSIBILITY_CODES: Readonly<Record<string, RecordCode>> = {};
