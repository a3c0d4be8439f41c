import { randomUUID } from 'node:crypto';
import { renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { Broken } from './failure.js';

/** Writes a result whole or not at all: to a file beside the target, then renamed; to standard output without a target. */
export function writeOutput(text: string, file: string | undefined): void {
  if (file === undefined || file === '-') {
    writeStandardOutput(text);
    return;
  }
  const aside = path.join(path.dirname(file), `.${path.basename(file)}.${randomUUID()}.part`);
  try {
    writeFileSync(aside, text);
    renameSync(aside, file);
  } catch (error) {
    rmSync(aside, { force: true });
    throw new Broken(`"${file}" cannot be written (${(error as NodeJS.ErrnoException).code ?? (error as Error).message}). Nothing was written.`);
  }
}

/** A reader that stops early, such as a pager, is no error. */
function writeStandardOutput(text: string): void {
  try {
    writeFileSync(1, text);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    // A pipe whose reader is slow takes no more for a moment: let Node wait for it.
    if (code === 'EAGAIN') process.stdout.write(text);
    else if (code !== 'EPIPE') throw new Broken(`standard output cannot be written (${code ?? (error as Error).message}).`);
  }
}
