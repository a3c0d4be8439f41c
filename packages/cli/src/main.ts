import { Command, CommanderError } from 'commander';
import { runCheck } from './commands/check.js';
import { runPlan } from './commands/plan.js';
import { runRules } from './commands/rules.js';
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
import { addRecordsCommands } from './records-commands.js';
import { VERSION } from './versions.js';

const SITUATION = 'file of the situation, or - for standard input';

/** The command line; `done` takes the exit code of the command that ran. */
function commandLine(done: (code: number) => void): Command {
  const program = new Command('commensal')
    .description('Which marine animals can live together in a tank, in what order they go in, and why the rest is left out.')
    .version(VERSION)
    .showHelpAfterError('Run commensal --help to see what there is.')
    .exitOverride();
  const ofSituation = (name: string, description: string, run: (file: string, options: SharedOptions) => number): void => {
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
      .action((file: string, options: SharedOptions) => done(run(file, options)));
  };
  ofSituation('check', 'findings for what is there and what is planned', runCheck);
  ofSituation('plan', 'narrow the wish list, plan the introductions, explain what was left out', runPlan);
  program
    .command('rules')
    .description('what each rule asks, needs, assumes')
    .argument('[id]', 'id of one rule')
    .addOption(formatOption())
    .addOption(outOption())
    .addOption(langOption())
    .action((id: string | undefined, options: SharedOptions) => done(runRules(id, options)));
  addRecordsCommands(program, done);
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

process.on('SIGINT', () => process.exit(EXIT.interrupted));

try {
  await commandLine((code) => {
    process.exitCode = code;
  }).parseAsync();
} catch (error) {
  process.exitCode = fail(error);
}
