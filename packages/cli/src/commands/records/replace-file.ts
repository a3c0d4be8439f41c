import { randomUUID } from 'node:crypto';
import { accessSync, chmodSync, constants, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/**
 * Puts a text in the place of a file, whole or not at all: it is written beside it and renamed. Permissions stay; of a link the file
 * it leads to is replaced; a file that may not be written is left alone, though its folder might allow it.
 *
 * @throws the error of the system; the file is then as it was.
 */
export function replaceFile(file: string, text: string): void {
  const target = realpathSync(file);
  accessSync(target, constants.W_OK);
  const aside = path.join(path.dirname(target), `.${path.basename(target)}.${randomUUID()}.part`);
  const { mode } = statSync(target);
  try {
    writeFileSync(aside, text, { flag: 'wx', mode });
    // What a new file may be is cut by the mask of the process.
    chmodSync(aside, mode);
    renameSync(aside, target);
  } catch (error) {
    rmSync(aside, { force: true });
    throw error;
  }
}
