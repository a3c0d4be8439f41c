import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { badCall, Broken } from './failure.js';

/** A text and the file it goes to. */
export interface FileText {
  readonly file: string;
  readonly text: string;
}

const reason = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? (error as Error).message;

const asideOf = (file: string): string => path.join(path.dirname(file), `.${path.basename(file)}.${randomUUID()}.part`);

/**
 * Writes all the files whole or none of them: everything is written beside its target first and renamed only when all of
 * it is there; where a rename fails, the files renamed before it get their old text back.
 */
export function writeAll(files: readonly FileText[]): void {
  const staged = files.map(({ file, text }) => ({
    file,
    text,
    aside: asideOf(file),
    before: existsSync(file) ? readFileSync(file) : undefined,
  }));
  const renamed: typeof staged = [];
  let at = '';
  try {
    for (const { file, text, aside } of staged) {
      at = file;
      writeFileSync(aside, text);
    }
    for (const one of staged) {
      at = one.file;
      renameSync(one.aside, one.file);
      renamed.push(one);
    }
  } catch (error) {
    for (const { aside } of staged) rmSync(aside, { force: true });
    for (const { file, before } of renamed) {
      if (before === undefined) rmSync(file, { force: true });
      else writeFileSync(file, before);
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
