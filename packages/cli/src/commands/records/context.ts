import { type Bibliography, bibliographyProblems, type StandIns, standInsProblems } from '@commensal/schema';
import { bibliography, standIns } from '@commensal/species-sample';
import { readDocument } from '../../read-document.js';
import type { RecordContext } from './plausible.js';

/** Bibliography and stand-ins that records are held against: those named, else those of the sample. */
export function contextOf(options: { readonly bibliography?: string; readonly standIns?: string }): RecordContext {
  return {
    bibliography:
      options.bibliography === undefined ? bibliography : readDocument<Bibliography>(options.bibliography, bibliographyProblems).document,
    standIns: options.standIns === undefined ? standIns : readDocument<StandIns>(options.standIns, standInsProblems).document,
  };
}
