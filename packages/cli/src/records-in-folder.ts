import { readdirSync } from 'node:fs';
import path from 'node:path';
import type { Problem, SpeciesRecord } from '@commensal/schema';
import { badCall, BadInput } from './failure.js';
import { noticesText, openRecord } from './open-record.js';

/** The records of a folder, with what of them a later version of the schema brought told on standard error. */
export function recordsIn(folder: string): SpeciesRecord[] {
  const files = recordFiles(folder);
  if (files.length === 0) {
    throw badCall(
      'no-records',
      `"${folder}" holds no species records`,
      'it must hold files that end in .species.json',
      'Name the folder that holds them, or one above it.',
    );
  }
  const byId = new Map<string, { record: SpeciesRecord; file: string }>();
  const problems: Problem[] = [];
  const notices: Problem[] = [];
  for (const file of files) {
    try {
      const { record, notices: left, locate } = openRecord(file);
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

function recordFiles(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.species.json'))
      .sort()
      .map((name) => path.join(folder, name));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why = code === 'ENOENT' ? 'does not exist' : code === 'ENOTDIR' ? 'is no folder' : `cannot be read (${code})`;
    throw badCall('no-such-folder', `"${folder}" ${why}`, 'it must be a folder of species records', 'Check the name.');
  }
}
