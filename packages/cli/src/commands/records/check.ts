import path from 'node:path';
import { collectionProblems, idOfFile, type ProblemContext, type RecordEntry } from '@commensal/records';
import type { Problem } from '@commensal/schema';
import { badCall, BadInput, EXIT } from '../../failure.js';
import { parseJson } from '../../parse-json.js';
import { readText, STANDARD_INPUT } from '../../read-document.js';
import { writeOutput } from '../../write-output.js';
import { breather } from './breathe.js';
import { changedSince } from './changed-files.js';
import { checkAnnotations } from './check-annotations.js';
import { checkJson } from './check-json.js';
import { checkSarif } from './check-sarif.js';
import { checkText } from './check-text.js';
import { type Checked, countsOf } from './checked.js';
import { contextOf } from './context.js';
import { progressOf } from './progress.js';
import { isUnread, problemsIn, readRecord } from './read-record.js';
import { byName, recordFilesAt, type RecordFiles, shownName, surroundingsOf } from './record-files.js';

type Format = 'text' | 'json' | 'sarif' | 'annotations';

export interface RecordsCheckOptions {
  readonly format: Format;
  readonly out?: string;
  readonly bibliography?: string;
  readonly standIns?: string;
  /** A ref, or true for what the branch was taken from. */
  readonly changed?: string | true;
  readonly strict?: boolean;
}

const PRINT: Readonly<Record<Format, (checked: Checked) => string>> = {
  text: checkText,
  json: checkJson,
  sarif: checkSarif,
  annotations: checkAnnotations,
};

/** What `--format` may be. */
export const RECORDS_CHECK_FORMATS: readonly string[] = Object.keys(PRINT);

/** `commensal records check [PATHS...]`: everything that is wrong with records. Returns the exit code. */
export async function runRecordsCheck(paths: readonly string[], options: RecordsCheckOptions): Promise<number> {
  const context = contextOf(options);
  const found = recordFilesAt(paths);
  refuseToOverwrite(found.files, options);
  const isChanged = options.changed === undefined ? () => true : changedSince(options.changed);
  const isMeant = (file: string): boolean => file === '-' || isChanged(file);
  const checked = await checkFiles(found, surroundingsOf(paths, found.files), context, isMeant);
  writeOutput(PRINT[options.format](checked), options.out);
  const { error, warning } = countsOf(checked.problems);
  return error > 0 || (options.strict === true && warning > 0) ? EXIT.found : EXIT.done;
}

/** A result written over a record, or over what it was held against, would be a loss. */
function refuseToOverwrite(files: readonly string[], { out, bibliography, standIns }: RecordsCheckOptions): void {
  if (out === undefined || out === '-') return;
  const inputs = [...files, bibliography, standIns].map((file) => (file === undefined ? undefined : path.resolve(file)));
  if (!inputs.includes(path.resolve(out))) return;
  throw badCall('same-file', `--out names "${out}", which is read`, 'a result needs a file of its own', 'Name another file.');
}

/** Checks each file by itself, then all that the schema takes together; problems are told of those for which `isMeant`. */
async function checkFiles(
  { files, problems: unread }: RecordFiles,
  around: readonly string[],
  context: ProblemContext,
  isMeant: (file: string) => boolean,
): Promise<Checked> {
  const problems: Problem[] = [...unread];
  const entries: RecordEntry[] = [];
  // What is broken is there all the same: whoever names it makes no mistake.
  const otherIds = [...(context.otherIds ?? [])];
  const meant = new Set(files.filter(isMeant).map(shownName));
  const progress = progressOf('checking records', files.length);
  const breathe = breather();
  let standardInput = '';
  for (const [index, file] of files.entries()) {
    const name = shownName(file);
    const read = readRecord(file);
    const id = idOfFile(name);
    if (id !== undefined && (isUnread(read) || read.record === undefined)) otherIds.push(id);
    if (isUnread(read)) {
      if (meant.has(name)) problems.push(...read);
    } else {
      if (file === '-') standardInput = read.text;
      if (read.record !== undefined) entries.push({ file: name, record: read.record });
      if (meant.has(name)) problems.push(...problemsIn(read, context));
    }
    progress.at(index + 1);
    await breathe();
  }
  progress.end();
  const between = collectionProblems([...entries, ...entriesIn(around)], { ...context, otherIds }).filter(
    ({ file = '', code }) =>
      // Standard input stands nowhere. Some problems are told of the bibliography, which is no record.
      (meant.has(file) && !(file === STANDARD_INPUT && code === 'file-place')) || (file === context.bibliographyFile && isMeant(file)),
  );
  problems.push(...placed(between, (name) => (name === STANDARD_INPUT ? standardInput : readText(name))));
  return { records: meant.size, all: files.length, problems: inOrder(problems) };
}

/** The records of files that were not named, as far as there are any. */
function entriesIn(files: readonly string[]): RecordEntry[] {
  return files.flatMap((file) => {
    const read = readRecord(file);
    return isUnread(read) || read.record === undefined ? [] : [{ file, record: read.record }];
  });
}

/** The problems between records with line and column: their files are read once more, one at a time. */
function placed(problems: readonly Problem[], textOf: (file: string) => string): Problem[] {
  const byFile = new Map<string, Problem[]>();
  for (const problem of problems) {
    const { file = '' } = problem;
    byFile.set(file, [...(byFile.get(file) ?? []), problem]);
  }
  return [...byFile].flatMap(([file, ofFile]) => {
    try {
      return ofFile.map(parseJson(textOf(file), file).locate);
    } catch (error) {
      // The file is gone or broken since it was read: the problem stands all the same.
      if (error instanceof BadInput) return ofFile;
      throw error;
    }
  });
}

const lineOf = ({ line = 0 }: Problem): number => line;
const columnOf = ({ column = 0 }: Problem): number => column;

/** Each problem once, in the order of files, lines and columns. */
function inOrder(problems: readonly Problem[]): Problem[] {
  const once = new Map(
    problems.map((problem) => [
      JSON.stringify([problem.file, problem.code, problem.pointer, problem.line, problem.column, problem.found]),
      problem,
    ]),
  );
  return [...once.values()].sort(
    (one, other) => byName(one.file ?? '', other.file ?? '') || lineOf(one) - lineOf(other) || columnOf(one) - columnOf(other),
  );
}
