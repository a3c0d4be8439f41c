import path from 'node:path';
import { type Library, libraryOf } from '@commensal/core';
import type { Problem, SpeciesRecord } from '@commensal/schema';
import { records, release, standIns } from '@commensal/species-sample';
import { BadInput } from './failure.js';
import { noticesText, readRecord } from './read-record.js';
import { someRecordFilesIn } from './record-files.js';

/** The sample that ships inside, or the records of a folder. Stand-ins always come from the sample. */
export function openLibrary(folder: string | undefined): Library {
  return folder === undefined
    ? libraryOf(records, standIns, release)
    : libraryOf(recordsIn(folder), standIns, path.basename(path.resolve(folder)));
}

function recordsIn(folder: string): SpeciesRecord[] {
  const files = someRecordFilesIn(folder);
  const byId = new Map<string, { record: SpeciesRecord; file: string }>();
  const problems: Problem[] = [];
  const notices: Problem[] = [];
  for (const file of files) {
    try {
      const { record, notices: left, locate } = readRecord(file);
      notices.push(...left);
      const twin = byId.get(record.id);
      if (twin === undefined) byId.set(record.id, { record, file });
      else problems.push(locate(duplicateId(record.id, twin.file)));
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new BadInput(problems);
  process.stderr.write(noticesText(notices));
  return [...byId.values()].map(({ record }) => record);
}

const duplicateId = (id: string, otherFile: string): Problem => ({
  code: 'duplicate-id',
  pointer: '/id',
  found: `id is "${id}", as it is in ${otherFile}`,
  allowed: 'each record must have an id of its own',
  fix: 'Keep one of the two records.',
});
