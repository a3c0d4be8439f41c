import { type Command, Option } from 'commander';
import { RECORDS_CHECK_FORMATS, type RecordsCheckOptions, runRecordsCheck } from './commands/records/check.js';
import { type RecordsFixOptions, runRecordsFix } from './commands/records/fix.js';
import { type ExportOptions, runExport } from './commands/records/export.js';
import { type ImportOptions, runImport } from './commands/records/import.js';
import { runMigrate } from './commands/records/migrate.js';
import { nonEmpty, outOption, speciesOption } from './options.js';

const PATHS = 'files or folders of records, - for standard input; packages/species-sample/records or records unless told otherwise';

const changedOption = (): Option =>
  new Option('--changed [ref]', 'only files that changed in git since the branch was taken from ref, or from the main line').argParser(
    nonEmpty,
  );

const bibliographyOption = (): Option =>
  new Option('--bibliography <file>', 'bibliography in CSL-JSON to use instead of that of the sample').argParser(nonEmpty);

/** `commensal records ...`: what data volunteers do with species records. `done` takes the exit code of the command that ran. */
export function addRecordsCommands(program: Command, done: (code: number) => void): void {
  const records = program.command('records').description('check, repair, write and read species records');
  records
    .command('check')
    .description('everything that is wrong with records')
    .argument('[paths...]', PATHS)
    .addOption(bibliographyOption())
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
  records
    .command('migrate')
    .description('bring records of earlier versions of the schema to the present one')
    .argument('[paths...]', 'files or folders of records; packages/species-sample/records or records unless told otherwise')
    .option('--dry-run', 'say what would be written, and write nothing')
    .action((paths: string[], options: { dryRun?: boolean }) => done(runMigrate(paths, options)));
  records
    .command('export')
    .description('records as a Darwin Core Archive (a folder of CSV files) or as JSON Lines')
    .addOption(new Option('--format <format>', 'what to write').choices(['dwc', 'jsonl']).makeOptionMandatory())
    .addOption(
      new Option('--out <place>', 'new folder for an archive; file for JSON Lines, standard output when left out').argParser(nonEmpty),
    )
    .addOption(speciesOption())
    .addOption(bibliographyOption())
    .action((options: ExportOptions) => done(runExport(options)));
  records
    .command('import')
    .description('add measurements of a CSV table to records; nothing is overwritten')
    .argument('<table>', 'CSV with a header, or - for standard input', nonEmpty)
    .addOption(new Option('--records <folder>', 'folder of the records to add to').argParser(nonEmpty).makeOptionMandatory())
    .addOption(bibliographyOption())
    .option('--dry-run', 'say what would be written, and write nothing')
    .option('--prefer-measured', 'let measured figures take the place of recalled, imputed and practice ones')
    .action((table: string, options: ImportOptions) => done(runImport(table, options)));
}
