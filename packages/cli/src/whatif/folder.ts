import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readdirSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { hostname } from 'node:os';
import path from 'node:path';
import type { StudyManifest } from '@commensal/schema';
import { studyManifestProblems } from '@commensal/schema';
import { badCall, BadInput, Broken } from '../failure.js';
import { parseJson } from '../parse-json.js';
import { readText } from '../read-document.js';
import { putInPlace } from '../write-output.js';
import type { RowFormat } from './formats.js';
import { sha256 } from './hash.js';

const MANIFEST = 'manifest.json';

const PART = /^part-(\d{8})\.(parquet|csv|ndjson)$/;
/** A file that is being written, by a process of a host; a run that was killed leaves it behind. */
const ASIDE = /^\..*\.([\da-f]{8})-(\d+)-[\da-f-]{36}\.aside$/;

/** A host by a few digits: several may write into one folder, and their processes may have the same numbers. */
const HOST = sha256(hostname()).slice(0, 8);

const asideOf = (folder: string, name: string): string => path.join(folder, `.${name}.${HOST}-${process.pid}-${randomUUID()}.aside`);

export const partName = (block: number, format: RowFormat): string => `part-${String(block).padStart(8, '0')}.${format}`;

/** The blocks whose parts are in a folder, in a format. */
export const blocksIn = (folder: string, format: RowFormat): ReadonlySet<number> =>
  new Set(
    readdirSync(folder).flatMap((name) => {
      const [, block, ending] = PART.exec(name) ?? [];
      return ending === format ? [Number(block)] : [];
    }),
  );

/** Removes what killed processes of this host have left; what runs, or ran elsewhere, is left alone. */
export function removeLeftovers(folder: string): void {
  for (const name of readdirSync(folder)) {
    const [, host, owner] = ASIDE.exec(name) ?? [];
    if (host === HOST && !isRunning(Number(owner))) rmSync(path.join(folder, name), { force: true });
  }
}

/** This process has the number of one that was killed only where it has nothing under way itself. */
function isRunning(owner: number): boolean {
  if (owner === process.pid) return false;
  try {
    process.kill(owner, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * Writes a file of a run whole or not at all: beside its place, flushed to the disk, then put there. With `isNew` it takes the place of nothing: where a file of that name has come
 * up meanwhile, that one stays and the answer is false.
 *
 * @throws Broken where it cannot be written; nothing is left of it then.
 */
export function writeWhole(folder: string, name: string, bytes: Uint8Array | string, isNew = false): boolean {
  const aside = asideOf(folder, name);
  const place = path.join(folder, name);
  let file: number | undefined;
  try {
    file = openSync(aside, 'wx');
    const buffer = typeof bytes === 'string' ? Buffer.from(bytes) : bytes;
    for (let at = 0; at < buffer.length; ) at += writeSync(file, buffer, at);
    fsyncSync(file);
    closeSync(file);
    file = undefined;
    if (isNew) return putNew(aside, place);
    renameSync(aside, place);
    return true;
  } catch (error) {
    if (file !== undefined) closeSync(file);
    throw new Broken(`"${place}" cannot be written (${reason(error)}). Parts that are finished stay; --resume goes on from them.`);
  } finally {
    rmSync(aside, { force: true });
  }
}

/** A second name for the file fails where there is one of that name, which renaming would not. */
function putNew(aside: string, place: string): boolean {
  try {
    putInPlace(aside, place);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
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
    const parts = readdirSync(folder).filter((name) => PART.test(name)).length;
    if (parts > 0) {
      throw badCall(
        'no-manifest',
        `"${folder}" holds ${parts} parts and no manifest.json`,
        'what they belong to cannot be told',
        'Put the manifest back, or name another folder.',
      );
    }
    if (writeWhole(folder, MANIFEST, `${JSON.stringify(manifest, null, 2)}\n`, true)) return;
    // Another shard, or another study, has been quicker.
    claimFolder(folder, manifest);
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
