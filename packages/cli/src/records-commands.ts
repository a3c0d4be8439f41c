import { type Command, Option } from 'commander';
import { RECORDS_CHECK_FORMATS, type RecordsCheckOptions, runRecordsCheck } from './commands/records/check.js';
import { type RecordsFixOptions, runRecordsFix } from './commands/records/fix.js';
import { nonEmpty, outOption } from './options.js';

const PATHS = 'files or folders of records, - for standard input; packages/species-sample/records or records unless told otherwise';

const changedOption = (): Option =>
  new Option('--changed [ref]', 'only files that changed in git since the branch was taken from ref, or from the main line').argParser(
    nonEmpty,
  );

/** `commensal records ...`: what data volunteers do with species records. `done` takes the exit code of the command that ran. */
export function addRecordsCommands(program: Command, done: (code: number) => void): void {
  const records = program.command('records').description('check, repair, write and read species records');
  records
    .command('check')
    .description('everything that is wrong with records')
    .argument('[paths...]', PATHS)
    .addOption(
      new Option('--bibliography <file>', 'bibliography to hold sources against instead of that of the sample').argParser(nonEmpty),
    )
    .addOption(new Option('--stand-ins <file>', 'stand-ins to hold figures against instead of those of the sample').argParser(nonEmpty))
    .addOption(changedOption())
    .addOption(new Option('--format <format>', 'what to print').choices(RECORDS_CHECK_FORMATS).default('text'))
    .addOption(outOption())
    .addOption(new Option('--strict', 'also exit with 1 where there are only warnings'))
    .action(async (paths: string[], options: RecordsCheckOptions) => done(await runRecordsCheck(paths, options)));
  records
    .command('fix')
    .description('put the form of records right: order, spacing, spelling, units, sources; never a value')
    .argument('[paths...]', PATHS)
    .addOption(new Option('--dry-run', 'only say what would be repaired'))
    .addOption(changedOption())
    .action(async (paths: string[], options: RecordsFixOptions) => done(await runRecordsFix(paths, options)));
}
