import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readdirSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import path from 'node:path';
import type { StudyManifest } from '@commensal/schema';
import { studyManifestProblems } from '@commensal/schema';
import { badCall, BadInput, Broken } from '../failure.js';
import { parseJson } from '../parse-json.js';
import { readText } from '../read-document.js';
import type { RowFormat } from './formats.js';

export const MANIFEST = 'manifest.json';

const PART = /^part-(\d{8})\.(parquet|csv|ndjson)$/;
/** A file that is being written; a run that was killed leaves it behind. */
const ASIDE = /^\.part-\d{8}\.\w+\.(\d+)-\d+\.aside$/;

export const partName = (block: number, format: RowFormat): string => `part-${String(block).padStart(8, '0')}.${format}`;

/** The blocks whose parts are in a folder. */
export const blocksIn = (folder: string): ReadonlySet<number> =>
  new Set(readdirSync(folder).flatMap((name) => (PART.test(name) ? [Number(PART.exec(name)?.[1])] : [])));

/** Removes what a killed process has left; what a process that runs is writing stays. */
export function removeLeftovers(folder: string): void {
  for (const name of readdirSync(folder)) {
    const owner = ASIDE.exec(name)?.[1];
    if (owner !== undefined && !isRunning(Number(owner))) rmSync(path.join(folder, name), { force: true });
  }
}

function isRunning(process_: number): boolean {
  if (process_ === process.pid) return false;
  try {
    process.kill(process_, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

let asides = 0;

/**
 * Writes a file of a run whole or not at all: beside its place, flushed to the disk, then renamed. `thread` tells workers of one process apart.
 *
 * @throws Broken where it cannot be written; nothing is left of it then.
 */
export function writeWhole(folder: string, name: string, bytes: Uint8Array | string, thread = 0): void {
  asides += 1;
  const aside = path.join(
    folder,
    `.${name.startsWith('part-') ? name : `part-00000000.${name.replaceAll(/\W/g, '')}`}.${process.pid}-${thread}${asides}.aside`,
  );
  let file: number | undefined;
  try {
    file = openSync(aside, 'wx');
    const buffer = typeof bytes === 'string' ? Buffer.from(bytes) : bytes;
    for (let at = 0; at < buffer.length; ) at += writeSync(file, buffer, at);
    fsyncSync(file);
    closeSync(file);
    file = undefined;
    renameSync(aside, path.join(folder, name));
  } catch (error) {
    if (file !== undefined) closeSync(file);
    rmSync(aside, { force: true });
    throw new Broken(
      `"${path.join(folder, name)}" cannot be written (${reason(error)}). Parts that were finished before are kept; --resume goes on from them.`,
    );
  }
}

const reason = (error: unknown): string => {
  const { code, message } = error as NodeJS.ErrnoException;
  return code === 'ENOSPC' ? 'the disk is full' : (code ?? message);
};

/** Makes the folder of a run where there is none. */
export function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
    readdirSync(folder);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST' || code === 'ENOTDIR')
      throw badCall('not-a-folder', `"${folder}" is a file, or lies in one`, 'parts go to a folder', 'Name another.');
    throw new Broken(`The folder "${folder}" cannot be made or read (${reason(error)}). Nothing was written.`);
  }
}

/** The manifest of a folder; undefined where it has none. */
export function readManifest(folder: string): StudyManifest | undefined {
  const file = path.join(folder, MANIFEST);
  if (!existsSync(file)) return undefined;
  const parsed = parseJson(readText(file), file);
  const problems = studyManifestProblems(parsed.data);
  if (problems.length > 0) throw new BadInput(problems.map((problem) => parsed.locate(problem)));
  return parsed.data as StudyManifest;
}

/** What two manifests must have in common, and what to call it. */
const SAME: readonly (readonly [keyof StudyManifest, string])[] = [
  ['study', 'the study'],
  ['records', 'the species records'],
  ['given', 'the table of scenarios'],
  ['format', 'the format'],
  ['versions', 'the versions of code, schema or data'],
  ['columns', 'the columns'],
  ['blockScenarios', 'the size of the parts'],
];

/**
 * Puts the manifest into a folder, or holds it against the one that is there: several shards may begin at once.
 *
 * @throws BadInput `another-study` where the folder belongs to one.
 */
export function claimFolder(folder: string, manifest: StudyManifest): void {
  const there = readManifest(folder);
  if (there === undefined) {
    writeWhole(folder, MANIFEST, `${JSON.stringify(manifest, null, 2)}\n`);
    return;
  }
  const differs = SAME.filter(([key]) => JSON.stringify(there[key]) !== JSON.stringify(manifest[key])).map(([, name]) => name);
  if (differs.length === 0) return;
  throw badCall(
    'another-study',
    `"${folder}" holds parts of another run: ${differs.join(', ')} ${differs.length === 1 ? 'differs' : 'differ'}`,
    'a folder holds the parts of one study, made with the same records and versions',
    'Name another folder, or go on with what made these parts.',
  );
}

export const writeText = (folder: string, name: string, text: string): void => {
  const file = path.join(folder, name);
  if (!existsSync(file) || readFileSync(file, 'utf8') !== text) writeWhole(folder, name, text);
};
