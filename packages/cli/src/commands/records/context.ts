import { type StandIns, standInsProblems } from '@commensal/schema';
import { standIns } from '@commensal/species-sample';
import { openBibliography } from '../../read-bibliography.js';
import { readDocument } from '../../read-document.js';
import type { ProblemContext } from './plausible.js';

/** Bibliography and stand-ins that records are held against: those named, else those of the sample. */
export function contextOf(options: { readonly bibliography?: string; readonly standIns?: string }): ProblemContext {
  return {
    ...(options.bibliography === undefined ? {} : { bibliographyFile: options.bibliography }),
    bibliography: openBibliography(options.bibliography),
    standIns: options.standIns === undefined ? standIns : readDocument<StandIns>(options.standIns, standInsProblems).document,
  };
}
