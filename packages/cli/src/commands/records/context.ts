import type { ProblemContext } from '@commensal/records';
import { type StandIns, standInsProblems } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import { openBibliography } from '../../read-bibliography.js';
import { readDocument } from '../../read-document.js';

/** Bibliography and stand-ins that records are held against: those named, else those of the sample, whose species may be named as well. */
export function contextOf(options: { readonly bibliography?: string; readonly standIns?: string }): ProblemContext {
  return {
    ...(options.bibliography === undefined ? {} : { bibliographyFile: options.bibliography }),
    otherIds: records.map(({ id }) => id),
    bibliography: openBibliography(options.bibliography),
    standIns: options.standIns === undefined ? standIns : readDocument<StandIns>(options.standIns, standInsProblems).document,
  };
}
