import { type Bibliography, bibliographyProblems } from '@commensal/schema';
import { bibliography } from '@commensal/species-sample';
import { readDocument } from './read-document.js';

/** The bibliography in a file, or that of the sample that ships inside. */
export const openBibliography = (file: string | undefined): Bibliography =>
  file === undefined ? bibliography : readDocument<Bibliography>(file, bibliographyProblems).document;
