import { readFileSync } from 'node:fs';
import type { Problem } from '@commensal/schema';
import { badCall, BadInput } from './failure.js';
import { type Parsed, parseJson } from './parse-json.js';

/** The name of standard input in messages. */
export const STANDARD_INPUT = '<standard input>';

/** Text of a file, or of standard input for `-`, with the byte order mark if it has one. */
export function readText(file: string): string {
  const name = file === '-' ? STANDARD_INPUT : file;
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(readFileSync(file === '-' ? 0 : file));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') {
      throw badCall('not-utf-8', `"${name}" is not text in UTF-8`, 'JSON is written in UTF-8', 'Save it again with the encoding UTF-8.');
    }
    if (code === 'ENOENT' || code === 'ENOTDIR') {
      throw badCall(
        'no-such-file',
        `there is no file "${file}"`,
        'it must be a file, or - for standard input',
        'Check the name and the folder.',
      );
    }
    if (code === 'EISDIR') {
      throw badCall('not-a-file', `"${file}" is a folder`, 'it must be a file, or - for standard input', 'Name a file in it.');
    }
    throw badCall(
      'unreadable',
      `"${name}" cannot be read (${code ?? (error as Error).message})`,
      'it must be a file you may read',
      'Check its permissions.',
    );
  }
}

const lineOf = ({ line = 0 }: Problem): number => line;
const columnOf = ({ column = 0 }: Problem): number => column;

/** A document that its validator has nothing against. Problems come in the order of the text. */
export function readDocument<T>(file: string, problemsOf: (data: unknown) => Problem[]): { readonly document: T; readonly parsed: Parsed } {
  const parsed = parseJson(readText(file), file === '-' ? STANDARD_INPUT : file);
  const problems = problemsOf(parsed.data).map((problem) => parsed.locate(problem));
  if (problems.length > 0) {
    throw new BadInput(problems.sort((one, other) => lineOf(one) - lineOf(other) || columnOf(one) - columnOf(other)));
  }
  return { document: parsed.data as T, parsed };
}
