import { randomUUID } from 'node:crypto';
import { renameSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import path from 'node:path';
import { badCall, Broken } from './failure.js';

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
    throw new Broken(
      `"${file}" cannot be written (${(error as NodeJS.ErrnoException).code ?? (error as Error).message}). Nothing was written.`,
    );
  }
}

/** A result written over the document it was computed from would be a loss. */
export function refuseToOverwrite(input: string, output: string | undefined): void {
  if (input === '-' || output === undefined || path.resolve(input) !== path.resolve(output)) return;
  throw badCall('same-file', `--out names "${output}", the situation itself`, 'a result needs a file of its own', 'Name another file.');
}

/** A reader that stops early, such as a pager, is no error. */
function writeStandardOutput(text: string): void {
  const bytes = Buffer.from(text);
  let written = 0;
  try {
    while (written < bytes.length) written += writeSync(1, bytes, written);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    // A pipe whose reader is slow takes no more for a moment: let Node wait for it with the rest.
    if (code === 'EAGAIN') process.stdout.write(bytes.subarray(written));
    else if (code !== 'EPIPE') throw new Broken(`standard output cannot be written (${code ?? (error as Error).message}).`);
  }
}
