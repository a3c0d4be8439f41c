import { migrateSpecies, type Problem, SCHEMA_VERSION, speciesProblems } from '@commensal/schema';
import { badCall, BadInput, EXIT } from '../../failure.js';
import { problemsText } from '../../problems-text.js';
import { readDocument } from '../../read-document.js';
import { type FileText, writeAll } from '../../write-all.js';
import { writeOutput } from '../../write-output.js';
import { recordFilesAt } from './record-files.js';

/** What migrating one file comes to. */
interface Outcome {
  /** The new text; undefined where the record follows the present schema already. */
  readonly written: FileText | undefined;
  readonly steps: readonly string[];
  readonly notices: readonly Problem[];
  readonly problems: readonly Problem[];
}

const AFTERWARDS =
  'The line is that of the nearest thing in the file that keeps its place: the record is judged as it is after the migration.';

function migrated(file: string): Outcome {
  const { document: before, parsed } = readDocument<unknown>(file, () => []);
  const { document, steps, notices } = migrateSpecies(before);
  // What is wrong with a record of the present version is for the check to say; one of another version cannot be left as it is.
  const problems = speciesProblems(document).flatMap((problem) => {
    const located = parsed.locate(problem);
    if (steps.length > 0) return [{ ...located, fix: `${located.fix} ${AFTERWARDS}` }];
    return problem.pointer === '/$schema' ? [located] : [];
  });
  return {
    written: steps.length === 0 ? undefined : { file, text: `${JSON.stringify(document, null, 2)}\n` },
    steps,
    notices: notices.map((notice) => parsed.locate(notice)),
    problems,
  };
}

/**
 * `commensal records migrate [PATHS...]`: brings records of earlier versions of the schema to the present one. All files
 * that need it are written, or none. Returns the exit code: 1 where a record is wrong, and nothing is written then.
 */
export function runMigrate(paths: readonly string[], options: { readonly dryRun?: boolean }): number {
  if (paths.includes('-')) {
    throw badCall(
      'not-a-file',
      'records migrate is to bring standard input here',
      'it writes files where they are',
      'Name files or folders.',
    );
  }
  const { files, problems: unread } = recordFilesAt(paths);
  if (unread.length > 0) throw new BadInput(unread);
  const outcomes = files.map((file) => {
    try {
      return migrated(file);
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      return { written: undefined, steps: [], notices: [], problems: error.problems };
    }
  });
  const problems = outcomes.flatMap((outcome) => outcome.problems);
  const notices = outcomes.flatMap((outcome) => outcome.notices);
  if (notices.length > 0) process.stderr.write(`${problemsText(notices)}\n`);
  if (problems.length > 0) {
    process.stderr.write(`${problemsText(problems)}\nNothing was written.\n`);
    return EXIT.found;
  }
  const changed = outcomes.flatMap(({ written, steps }) => (written === undefined ? [] : [{ ...written, steps }]));
  if (options.dryRun !== true) writeAll(changed);
  const lines = changed.map(({ file, steps }) => `${file}: ${steps.join(', ')}`);
  const left = outcomes.length - changed.length;
  const verb = options.dryRun === true ? 'would be migrated' : 'migrated';
  lines.push(`${changed.length} ${verb} to schema ${SCHEMA_VERSION}, ${left} already there.`);
  writeOutput(`${lines.join('\n')}\n`, undefined);
  return EXIT.done;
}
