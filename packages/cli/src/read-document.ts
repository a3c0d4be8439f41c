import { readFileSync, statSync } from 'node:fs';
import type { Problem } from '@commensal/schema';
import { badCall, BadInput } from './failure.js';
import { type Parsed, parseJson } from './parse-json.js';

/** The name of standard input in messages. */
const STANDARD_INPUT = '<standard input>';

/** Text of a file, or of standard input for `-`. */
function readText(file: string): string {
  try {
    return readFileSync(file === '-' ? 0 : file, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') throw badCall('no-such-file', `there is no file "${file}"`, 'a file, or - for standard input', 'Check the name and the folder.');
    if (code === 'EISDIR' || (file !== '-' && statSync(file).isDirectory())) {
      throw badCall('not-a-file', `"${file}" is a folder`, 'a file, or - for standard input', 'Name a file in it.');
    }
    throw badCall('unreadable', `"${file}" cannot be read (${code ?? (error as Error).message})`, 'a file you may read', 'Check its permissions.');
  }
}

/** A document that its validator has nothing against. */
export function readDocument<T>(file: string, problemsOf: (data: unknown) => Problem[]): { readonly document: T; readonly parsed: Parsed } {
  const parsed = parseJson(readText(file), file === '-' ? STANDARD_INPUT : file);
  const problems = problemsOf(parsed.data);
  if (problems.length > 0) throw new BadInput(problems.map((problem) => parsed.locate(problem)));
  return { document: parsed.data as T, parsed };
}
