import { recordForm } from '@commensal/records';
import { isSpeciesRecord, type Problem } from '@commensal/schema';
import { badCall, EXIT } from '../../failure.js';
import { problemsText } from '../../problems-text.js';
import { writeOutput } from '../../write-output.js';
import { breather } from './breathe.js';
import { changedSince } from './changed-files.js';
import { onOneLine } from './check-text.js';
import { progressOf } from './progress.js';
import { isUnread, readRecord } from './read-record.js';
import { recordFilesAt } from './record-files.js';
import { replaceFile } from './replace-file.js';

export interface RecordsFixOptions {
  readonly dryRun?: boolean;
  readonly changed?: string | true;
}

/** What became of a file. */
type Outcome =
  | { readonly kind: 'right' }
  | { readonly kind: 'repaired'; readonly file: string; readonly repairs: readonly Problem[] }
  | { readonly kind: 'wrong'; readonly problems: readonly Problem[] }
  | { readonly kind: 'unwritten'; readonly file: string; readonly why: string };

/**
 * `commensal records fix [PATHS...]`: puts the form of records right and nothing else. A record that the schema does not take is told
 * and left alone. Returns the exit code.
 */
export async function runRecordsFix(paths: readonly string[], options: RecordsFixOptions): Promise<number> {
  if (paths.includes('-')) {
    throw badCall('not-a-file', 'records fix is to repair standard input', 'it repairs files where they are', 'Name files or folders.');
  }
  const { files, problems: unread } = recordFilesAt(paths);
  const isChanged = options.changed === undefined ? () => true : changedSince(options.changed);
  const meant = files.filter(isChanged);
  const progress = progressOf('repairing records', meant.length);
  const breathe = breather();
  const outcomes: Outcome[] = [];
  for (const [index, file] of meant.entries()) {
    outcomes.push(fixFile(file, options.dryRun === true));
    progress.at(index + 1);
    await breathe();
  }
  progress.end();
  writeOutput(repairsText(outcomes, meant.length, options.dryRun === true), undefined);
  const wrong = [...unread, ...outcomes.flatMap((outcome) => (outcome.kind === 'wrong' ? outcome.problems : []))];
  if (wrong.length > 0) process.stderr.write(problemsText(wrong.map(printable)));
  const unwritten = outcomes.flatMap((outcome) => (outcome.kind === 'unwritten' ? [outcome] : []));
  for (const { file, why } of unwritten) process.stderr.write(`"${onOneLine(file)}" cannot be written (${why}). It is as it was.\n`);
  return unwritten.length > 0 ? EXIT.broken : wrong.length > 0 ? EXIT.found : EXIT.done;
}

function fixFile(file: string, isDry: boolean): Outcome {
  const read = readRecord(file);
  if (isUnread(read)) return { kind: 'wrong', problems: read };
  const { text, problems } = recordForm(read.text, { fix: true });
  // A source named twice is against the schema and a matter of form at once.
  if (!isSpeciesRecord(JSON.parse(text))) return { kind: 'wrong', problems: read.problems };
  if (problems.length === 0) return { kind: 'right' };
  try {
    if (!isDry) replaceFile(file, text);
  } catch (error) {
    return { kind: 'unwritten', file, why: (error as NodeJS.ErrnoException).code ?? (error as Error).message };
  }
  return { kind: 'repaired', file, repairs: problems };
}

const printable = (problem: Problem): Problem => ({ ...problem, file: onOneLine(problem.file ?? ''), found: onOneLine(problem.found) });

/** What was repaired, a line each, and how many records that were. */
function repairsText(outcomes: readonly Outcome[], all: number, isDry: boolean): string {
  const repaired = outcomes.flatMap((outcome) => (outcome.kind === 'repaired' ? [outcome] : []));
  const lines = repaired.flatMap(({ file, repairs }) =>
    repairs.map(
      ({ line, column, code, found, allowed }) =>
        `${onOneLine(file)}:${line}:${column}  ${code}\n  ${onOneLine(found)}; ${onOneLine(allowed)}.`,
    ),
  );
  const left = outcomes.filter(({ kind }) => kind === 'wrong' || kind === 'unwritten').length;
  const would = isDry ? 'would be repaired' : 'repaired';
  const summary = `${repaired.length} of ${all} ${all === 1 ? 'record' : 'records'} ${would}${left === 0 ? '' : `, ${left} left as they were`}.`;
  return `${[...lines, ...(lines.length === 0 ? [] : ['']), summary].join('\n')}\n`;
}
