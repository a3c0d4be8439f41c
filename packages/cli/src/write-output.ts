import { randomUUID } from 'node:crypto';
import { constants, copyFileSync, linkSync, mkdirSync, renameSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import path from 'node:path';
import { badCall, Broken } from './failure.js';

/** How long a full pipe is left to its reader before it is tried again, ms. */
const FULL_PIPE_MS = 2;
const NOBODY_WAKES = new Int32Array(new SharedArrayBuffer(4));

/** Writes a result whole or not at all: to a file beside the target, then renamed; to standard output without a target. */
export function writeOutput(text: string, file: string | undefined): void {
  if (writesToStandardOutput(file)) {
    writeStandardOutput(text);
    return;
  }
  const aside = path.join(path.dirname(file), `.${path.basename(file)}.${randomUUID()}.part`);
  try {
    writeFileSync(aside, text);
    renameSync(aside, file);
  } catch (error) {
    rmSync(aside, { force: true });
    throw new Broken(
      `"${file}" cannot be written (${(error as NodeJS.ErrnoException).code ?? (error as Error).message}). Nothing was written.`,
    );
  }
}

/**
 * Writes a file that is not there yet, whole or not at all, with the folders above it; never over another, not even over one that
 * came up meanwhile.
 *
 * @throws what `taken` makes of it where there is one.
 */
export function writeNewFile(text: string, file: string, taken: (found: string) => Error): void {
  const aside = path.join(path.dirname(file), `.${path.basename(file)}.${randomUUID()}.part`);
  try {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(aside, text);
    putInPlace(aside, file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') throw taken(`there is a file "${file}"`);
    throw new Broken(`"${file}" cannot be written (${code ?? (error as Error).message}). Nothing was written.`);
  } finally {
    rmSync(aside, { force: true });
  }
}

/** A second name for the file fails where there is one of that name, which renaming would not; some file systems have none to give. */
export function putInPlace(aside: string, file: string): void {
  try {
    linkSync(aside, file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'EOPNOTSUPP' && code !== 'ENOSYS') throw error;
    copyFileSync(aside, file, constants.COPYFILE_EXCL);
  }
}

/** A result written over the document it was computed from would be a loss. */
export function refuseToOverwrite(input: string, output: string | undefined): void {
  if (input === '-' || output === undefined || path.resolve(input) !== path.resolve(output)) return;
  throw badCall('same-file', `--out names "${output}", the situation itself`, 'a result needs a file of its own', 'Name another file.');
}

/** Whether a result goes to standard output. */
export const writesToStandardOutput = (file: string | undefined): file is undefined | '-' => file === undefined || file === '-';

/**
 * Writes all of it before it returns, waiting where a pipe takes no more for a moment, so that nothing piles up in memory. Returns
 * whether it is still being read: a reader that stops early, such as a pager, is no error.
 */
export function writeStandardOutput(text: string): boolean {
  const bytes = Buffer.from(text);
  let written = 0;
  while (written < bytes.length) {
    try {
      written += writeSync(1, bytes, written);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'EPIPE') return false;
      if (code !== 'EAGAIN') throw new Broken(`standard output cannot be written (${code ?? (error as Error).message}).`);
      Atomics.wait(NOBODY_WAKES, 0, 0, FULL_PIPE_MS);
    }
  }
  return true;
}
