import { readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { RECORD_ENDING } from '@commensal/records';
import { badCall } from './failure.js';

/** The files of records below a folder, in the order of their names. What was installed or is hidden holds none of anyone's own. */
export function recordFilesIn(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter(
        (name) => name.endsWith(RECORD_ENDING) && !name.split(path.sep).some((part) => part === 'node_modules' || /^\.[^.]/.test(part)),
      )
      .sort()
      .map((name) => path.join(folder, name));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why = code === 'ENOENT' ? 'does not exist' : code === 'ENOTDIR' ? 'is no folder' : `cannot be read (${code})`;
    throw badCall('no-such-folder', `"${folder}" ${why}`, 'it must be a folder of species records', 'Check the name.');
  }
}

/** At least one file of a record in a folder. */
export function someRecordFilesIn(folder: string): string[] {
  const files = recordFilesIn(folder);
  if (files.length > 0) return files;
  throw badCall(
    'no-records',
    `"${folder}" holds no species records`,
    `it must hold files that end in ${RECORD_ENDING}`,
    'Name the folder that holds them, or one above it.',
  );
}

/** The files of records that paths name: files as they are, folders with all below them, none twice. */
export function recordFilesAt(paths: readonly string[]): string[] {
  const files = new Map<string, string>();
  for (const place of paths) {
    const stats = statSync(place, { throwIfNoEntry: false });
    if (stats === undefined) {
      throw badCall(
        'no-such-file',
        `there is no file or folder "${place}"`,
        'it must be a record or a folder of records',
        'Check the name.',
      );
    }
    for (const file of stats.isDirectory() ? someRecordFilesIn(place) : [place]) files.set(path.resolve(file), file);
  }
  return [...files.values()];
}
