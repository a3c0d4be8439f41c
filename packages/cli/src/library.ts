import path from 'node:path';
import { type Library, libraryOf } from '@commensal/core';
import { records, release, standIns } from '@commensal/species-sample';

/** The sample that ships inside, or the records of a folder. Stand-ins always come from the sample. */
export async function openLibrary(folder: string | undefined): Promise<Library> {
  if (folder === undefined) return libraryOf(records, standIns, release);
  // What reads records takes as long to load as the rest, and most ask for the sample.
  const { recordsIn } = await import('./records-in-folder.js');
  return libraryOf(recordsIn(folder), standIns, path.basename(path.resolve(folder)));
}
