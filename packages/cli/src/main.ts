import { isMainThread } from 'node:worker_threads';
import { fileURLToPath } from 'node:url';
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import type { WhatIfOptions } from './commands/whatif.js';
import { BadInput, Broken, EXIT } from './failure.js';
import {
  asOfOption,
  depthOption,
  formatOption,
  langOption,
  nonEmpty,
  notesOption,
  outOption,
  reportFormatOption,
  type SharedOptions,
  speciesOption,
  strictOption,
  unitsOption,
} from './options.js';
import { problemsText } from './problems-text.js';
import { compileAtOnce } from './quick-start.js';
import { VERSION } from './versions.js';

type Run = (file: string, options: SharedOptions) => Promise<number>;

// A command is loaded when it is called: most of what there is serves another.
const runCheck = async (file: string, options: SharedOptions & { readonly candidates?: string }): Promise<number> =>
  options.candidates === undefined
    ? (await import('./commands/check.js')).runCheck(file, options)
    : (await import('./commands/candidates.js')).runCandidates(file, options.candidates, options);
const runPlan: Run = async (file, options) => {
  compileAtOnce();
  return (await import('./commands/plan.js')).runPlan(file, options);
};

/** Workers of a run are started from this file as well. */
const ENTRY = fileURLToPath(import.meta.url);

const numberUpTo =
  (most: number) =>
  (text: string): number => {
    const number = Number(text);
    if (!Number.isInteger(number) || number < 1 || number > most)
      throw new InvalidArgumentError(`It must be a whole number from 1 to ${most}.`);
    return number;
  };
const workers = numberUpTo(1024);
const shards = numberUpTo(100_000);

const SITUATION = 'file of the situation, or - for standard input';

/** The command line for these words; `done` takes the exit code of the command that ran. */
async function commandLine(words: readonly string[], done: (code: number) => void): Promise<Command> {
  const program = new Command('commensal')
    .description('Which marine animals can live together in a tank, in what order they go in, and why the rest is left out.')
    .version(VERSION)
    .showHelpAfterError('Run commensal --help to see what there is.')
    .exitOverride();
  const ofSituation = (name: string, description: string, run: Run): Command =>
    program
      .command(name)
      .description(description)
      .argument('<situation>', SITUATION, nonEmpty)
      .addOption(speciesOption())
      .addOption(reportFormatOption())
      .addOption(outOption())
      .addOption(unitsOption())
      .addOption(langOption())
      .addOption(depthOption())
      .addOption(asOfOption())
      .addOption(strictOption())
      .addOption(notesOption())
      .action(async (file: string, options: SharedOptions) => done(await run(file, options)));
  ofSituation('check', 'findings for what is there and what is planned', runCheck).option(
    '--candidates <species>',
    'say which of these species may join the tank as it is: all, or ids with commas between them',
    nonEmpty,
  );
  ofSituation('plan', 'narrow the wish list, plan the introductions, explain what was left out', runPlan);
  program
    .command('rules')
    .description('what each rule asks, needs, assumes')
    .argument('[id]', 'id of one rule')
    .addOption(formatOption())
    .addOption(outOption())
    .addOption(langOption())
    .action(async (id: string | undefined, options: SharedOptions) =>
      done(await (await import('./commands/rules.js')).runRules(id, options)),
    );
  program
    .command('whatif')
    .description('run a what-if study: a situation with distributions and lists in place of numbers')
    .argument('[study]', 'file of the study, or - for standard input', nonEmpty)
    .addOption(speciesOption())
    .option('--out <folder>', 'folder for the parts; rows go to standard output without it', nonEmpty)
    .option('--merge <folder>', 'say what came out of the run in this folder, once all its parts are there', nonEmpty)
    .addOption(
      new Option(
        '--format <format>',
        'of rows: parquet (into a folder, unless told), csv (without one) or ndjson; with --merge: text, markdown, json or csv',
      ).choices(['parquet', 'csv', 'ndjson', 'text', 'markdown', 'json']),
    )
    .option('--shard <i/n>', 'run only shard i of n, such as 3/8', nonEmpty)
    .option('--workers <n>', 'worker threads; as many as the machine has cores unless told', workers)
    .option('--resume', 'go on where an interrupted run left off')
    .option('--scenarios <file>', 'table that gives the scenarios (.csv, .ndjson, .parquet), for a study of design "given"', nonEmpty)
    .option('--print-slurm <n>', 'print a script that hands the run to Slurm in n shards, and stop', shards)
    .option('--print-kubernetes <n>', 'print an indexed job of Kubernetes with n shards, and stop', shards)
    .option('--tell', 'say what would run and about how long, and stop')
    .action(async (file: string | undefined, options: WhatIfOptions) =>
      done(await (await import('./commands/whatif.js')).runWhatIf(file, options, ENTRY)),
    );
  const records = program.command('records').description('check, repair, write and read species records');
  if (words.includes('records')) (await import('./records-commands.js')).addRecordsCommands(records, done);
  return program;
}

/** Says what went wrong on standard error and returns the exit code for it. */
function fail(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.badInput;
  if (error instanceof BadInput) {
    process.stderr.write(problemsText(error.problems));
    return EXIT.badInput;
  }
  if (error instanceof Broken) {
    process.stderr.write(`${error.message}\n`);
    return EXIT.broken;
  }
  process.stderr.write(
    `This is a defect in commensal, please report it with the input that led to it.\n${error instanceof Error ? error.stack : String(error)}\n`,
  );
  return EXIT.broken;
}

/** What this thread is for: a worker of a run, or the command line. */
async function main(): Promise<void> {
  if (!isMainThread) {
    (await import('./whatif/worker.js')).runWorker();
    return;
  }
  process.on('SIGINT', () => process.exit(EXIT.interrupted));
  // A run goes on when nobody reads any more how far it is.
  process.stderr.on('error', () => {});
  try {
    const program = await commandLine(process.argv.slice(2), (code) => {
      process.exitCode = code;
    });
    await program.parseAsync();
  } catch (error) {
    process.exitCode = fail(error);
  }
}

await main();
