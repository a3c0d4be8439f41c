import { type Dirent, readdirSync, realpathSync, statSync } from 'node:fs';
import path from 'node:path';
import { RECORD_ENDING } from '@commensal/records';
import type { Problem } from '@commensal/schema';
import { badCall } from '../../failure.js';
import { STANDARD_INPUT } from '../../read-document.js';

/** The files that were named and those in the folders that were named, and what could not be looked into. */
export interface RecordFiles {
  /** In the order of their names; standard input is `-`. */
  readonly files: readonly string[];
  readonly problems: readonly Problem[];
}

/** Where records are looked for when nothing is named. */
const USUAL = [path.join('packages', 'species-sample', 'records'), 'records'];

/** The name of a file in messages. */
export const shownName = (file: string): string => (file === '-' ? STANDARD_INPUT : file);

/** The order of files in every list of problems: that of their names, sign by sign, on every machine. */
export const byName = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

/**
 * The files of records below what was named. A folder is searched for names that end in `.species.json`; a file is taken whatever
 * its name. A file that is reached twice is there once.
 *
 * @throws BadInput where something named is not there or a folder holds no record.
 */
export function recordFilesAt(paths: readonly string[]): RecordFiles {
  const named = paths.length > 0 ? [...new Set(paths)] : [usualFolder()];
  // By real path, which takes its time, only where one file may be reached on two ways.
  const found = new Map<string, string>();
  const problems: Problem[] = [];
  for (const place of named) {
    const files = place === '-' ? [place] : filesOf(place, problems);
    for (const file of files) found.set(named.length === 1 || file === '-' ? file : realOf(file), file);
  }
  return { files: [...found.values()].sort(byName), problems };
}

function usualFolder(): string {
  const folder = USUAL.find((place) => targetOf(place)?.isDirectory());
  if (folder !== undefined) return folder;
  throw badCall(
    'no-records',
    'no file or folder is named, and there is neither a folder "packages/species-sample/records" nor a folder "records" here',
    'it must be known what to look at',
    'Name files or folders of records, or - for standard input.',
  );
}

/**
 * The other records of the folders named `records` in which files and folders stand that were named: of a part of the records it
 * cannot be told what those that it names are like.
 */
export function surroundingsOf(paths: readonly string[], files: readonly string[]): string[] {
  const roots = new Set(paths.flatMap((place) => (place === '-' ? [] : (rootOf(path.dirname(realOf(place))) ?? []))));
  if (roots.size === 0) return [];
  const named = new Set(files.map((file) => (file === '-' ? file : realOf(file))));
  const around: string[] = [];
  // What cannot be read there is told when all of it is checked.
  for (const root of roots) search(root, around, new Set(), []);
  return around.filter((file) => !named.has(realOf(file)));
}

/** The folder named `records` in which a folder stands, or which it is. */
function rootOf(folder: string): string | undefined {
  if (path.basename(folder) === 'records') return folder;
  const above = path.dirname(folder);
  return above === folder ? undefined : rootOf(above);
}

/** A link that leads nowhere has no real path; it is told when it is read. */
function realOf(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    return path.resolve(file);
  }
}

function filesOf(place: string, problems: Problem[]): string[] {
  const status = statusOf(place);
  if (!status.isDirectory()) return [place];
  const files: string[] = [];
  search(place, files, new Set(), problems);
  if (files.length > 0 || problems.length > 0) return files;
  throw badCall(
    'no-records',
    `"${place}" holds no species records`,
    `it must hold files that end in ${RECORD_ENDING}`,
    'Name the folder that holds them, or one above it.',
  );
}

function statusOf(place: string): ReturnType<typeof statSync> & object {
  try {
    return statSync(place);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why =
      code === 'ENOENT' || code === 'ENOTDIR' ? 'does not exist' : code === 'ELOOP' ? 'is a link to itself' : `cannot be read (${code})`;
    throw badCall(
      'no-such-path',
      `"${place}" ${why}`,
      'it must be a file or a folder of species records, or - for standard input',
      'Check the name and the folder.',
    );
  }
}

/** Adds the records below a folder. Links are followed, each folder is searched once: a link to a folder above ends there. */
function search(folder: string, files: string[], seen: Set<string>, problems: Problem[]): void {
  let entries: Dirent[];
  try {
    const real = realpathSync(folder);
    if (seen.has(real)) return;
    seen.add(real);
    entries = readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    problems.push({
      code: 'unreadable',
      pointer: '',
      file: folder,
      found: `the folder cannot be read (${(error as NodeJS.ErrnoException).code})`,
      allowed: 'it must be a folder you may read',
      fix: 'Check its permissions.',
    });
    return;
  }
  for (const entry of entries) {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
    const place = path.join(folder, entry.name);
    const status = entry.isSymbolicLink() ? targetOf(place) : entry;
    if (status?.isDirectory()) search(place, files, seen, problems);
    else if (entry.name.endsWith(RECORD_ENDING)) {
      if (status === undefined || status.isFile()) files.push(place);
      else problems.push(noFile(place));
    }
  }
}

/** What stands at a place or a link leads to; undefined where that is nothing, or the link itself. */
function targetOf(place: string): ReturnType<typeof statSync> {
  try {
    return statSync(place);
  } catch {
    return undefined;
  }
}

/** A pipe or a device: to read it might wait for ever. */
const noFile = (file: string): Problem => ({
  code: 'not-a-file',
  pointer: '',
  file,
  found: 'it is a pipe or a device',
  allowed: 'a record is a file',
  fix: 'Give it another name, or name it itself to have it read.',
});
