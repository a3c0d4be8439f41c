import { randomUUID } from 'node:crypto';
import {
  accessSync,
  chmodSync,
  constants,
  existsSync,
  mkdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { badCall, Broken } from './failure.js';

/** A text and the file it goes to. */
export interface FileText {
  readonly file: string;
  readonly text: string;
}

const reason = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? (error as Error).message;

const asideOf = (file: string): string => path.join(path.dirname(file), `.${path.basename(file)}.${randomUUID()}.part`);

/** A file to be written, with all that is needed to take it back. */
interface Staged {
  /** The file itself, where the name is that of a link to it. */
  readonly target: string;
  readonly aside: string;
  readonly text: string;
  /** Text and permissions of the file that is replaced. */
  readonly before: { readonly text: Buffer; readonly mode: number } | undefined;
}

function staged({ file, text }: FileText): Staged {
  if (!existsSync(file)) return { target: file, aside: asideOf(file), text, before: undefined };
  const target = realpathSync(file);
  // The folder might allow what the file does not.
  accessSync(target, constants.W_OK);
  return { target, aside: asideOf(target), text, before: { text: readFileSync(target), mode: statSync(target).mode } };
}

/**
 * Writes all the files whole or none of them: everything is written beside its target first and renamed only when all of
 * it is there; where a rename fails, the files renamed before it get their old text back. Permissions stay, and of a link the
 * file that it leads to is replaced.
 */
export function writeAll(files: readonly FileText[]): void {
  const all: Staged[] = [];
  const renamed: Staged[] = [];
  let at = '';
  try {
    for (const one of files) {
      at = one.file;
      const next = staged(one);
      all.push(next);
      writeFileSync(next.aside, next.text, { flag: 'wx' });
      if (next.before !== undefined) chmodSync(next.aside, next.before.mode);
    }
    for (const one of all) {
      at = one.target;
      renameSync(one.aside, one.target);
      renamed.push(one);
    }
  } catch (error) {
    for (const { aside } of all) rmSync(aside, { force: true });
    for (const { target, before } of renamed) {
      if (before === undefined) rmSync(target, { force: true });
      else writeFileSync(target, before.text);
    }
    throw new Broken(`"${at}" cannot be written (${reason(error)}). Nothing was written.`);
  }
}

/** Writes a new folder with all its files, or nothing: the folder appears under its name when it is complete. */
export function writeFolder(folder: string, files: readonly FileText[]): void {
  if (existsSync(folder)) {
    throw badCall('folder-exists', `"${folder}" is there already`, 'the folder must be a new one', 'Name another, or remove it first.');
  }
  const aside = asideOf(path.resolve(folder));
  try {
    mkdirSync(aside);
    for (const { file, text } of files) writeFileSync(path.join(aside, file), text);
    renameSync(aside, folder);
  } catch (error) {
    rmSync(aside, { recursive: true, force: true });
    throw new Broken(`"${folder}" cannot be written (${reason(error)}). Nothing was written.`);
  }
}
