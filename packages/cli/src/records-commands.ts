import { type Command, Option } from 'commander';
import { type ExportOptions, runExport } from './commands/records/export.js';
import { type ImportOptions, runImport } from './commands/records/import.js';
import { runMigrate } from './commands/records/migrate.js';
import { nonEmpty, speciesOption } from './options.js';

const bibliographyOption = (): Option =>
  new Option('--bibliography <file>', 'bibliography in CSL-JSON to use instead of that of the sample').argParser(nonEmpty);

/** `commensal records ...`: what data volunteers do with species records. `done` takes the exit code of the command that ran. */
export function addRecordsCommands(program: Command, done: (code: number) => void): void {
  const records = program.command('records').description('check, repair, write and read species records');
  records
    .command('migrate')
    .description('bring records of earlier versions of the schema to the present one')
    .argument('<paths...>', 'records, or folders of records')
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
