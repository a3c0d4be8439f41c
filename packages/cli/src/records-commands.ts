import { type Command, Option } from 'commander';
import { COVERAGE_FORMATS, type CoverageOptions, runCoverage } from './commands/records/coverage.js';
import { type ExplainOptions, runExplain } from './commands/records/explain.js';
import { runNew } from './commands/records/new.js';
import { FORMS, LENGTH_TYPES, type NewOptions } from './commands/records/new-input.js';
import { runSources, SOURCES_FORMATS, type SourcesOptions } from './commands/records/sources.js';
import { nonEmpty, outOption, reportFormatOption, speciesOption } from './options.js';
import { RECORDS_CHECK_FORMATS, type RecordsCheckOptions, runRecordsCheck } from './commands/records/check.js';
import { type RecordsFixOptions, runRecordsFix } from './commands/records/fix.js';
import { type ExportOptions, runExport } from './commands/records/export.js';
import { type ImportOptions, runImport } from './commands/records/import.js';
import { runMigrate } from './commands/records/migrate.js';

const formats = (choices: readonly string[]): Option => new Option('--format <format>', 'what to print').choices(choices).default('text');

const PATHS = 'files or folders of records, - for standard input; packages/species-sample/records or records unless told otherwise';

const changedOption = (): Option =>
  new Option('--changed [ref]', 'only files that changed in git since the branch was taken from ref, or from the main line').argParser(
    nonEmpty,
  );

const bibliographyOption = (): Option =>
  new Option('--bibliography <file>', 'bibliography in CSL-JSON to use instead of that of the sample').argParser(nonEmpty);

/** `commensal records ...`: what data volunteers do with species records. `done` takes the exit code of the command that ran. */
export function addRecordsCommands(records: Command, done: (code: number) => void): void {
  records
    .command('coverage')
    .description('how many records hold each field, by what it rests on')
    .addOption(speciesOption())
    .option('--family <family>', 'count only records of this family', nonEmpty)
    .option('--form <form>', 'count only records of this form, such as fish', nonEmpty)
    .addOption(formats(COVERAGE_FORMATS))
    .addOption(outOption())
    .action(async (options: CoverageOptions) => done(await runCoverage(options)));
  records
    .command('new')
    .description('a first record from a scientific name, and what is worth finding out first; asks where standard input is a terminal')
    .argument('<name>', 'genus and species, such as "Halichoeres melanurus"', nonEmpty)
    .addOption(speciesOption())
    .option('--family <family>', 'its family; not needed where a record is of the same genus', nonEmpty)
    .option('--form <form>', `${FORMS.join(', ')}; not needed where the family tells`, nonEmpty)
    .option('--english <name>', 'its English name', nonEmpty)
    .option('--name <language:name>', 'its name in another language; may be given again', (text: string, before: string[] = []) => [
      ...before,
      text,
    ])
    .option('--maximum <length>', 'the greatest length on record, such as 12cm', nonEmpty)
    .option('--length-type <type>', `how that was measured: ${LENGTH_TYPES.join(', ')} (TL unless told)`, nonEmpty)
    .option('--source <key>', 'key of the bibliography entry that gives that length; without one it is from memory', nonEmpty)
    .option('--aphia-id <number>', 'its number in the World Register of Marine Species', nonEmpty)
    .option('--authorship <text>', 'who named it, and when', nonEmpty)
    .option('--added-in <release>', 'data release it comes with (the next of the sample unless told)', nonEmpty)
    .option(
      '--out <place>',
      'folder of records, or a file that ends in .species.json, or - for standard output (this folder unless told)',
      nonEmpty,
    )
    .option('--dry-run', 'write nothing, print the record')
    .option('--no-input', 'never ask')
    .addOption(new Option('--format <format>', 'what to print').choices(['text', 'json']).default('text'))
    .action(async (name: string, options: NewOptions) => done(await runNew(name, options)));
  records
    .command('explain')
    .description('one record as prose: what is known, how well, where from, and what the rules can and cannot tell because of it')
    .argument('<id>', 'id of a record, or a file that holds one, or - for standard input', nonEmpty)
    .addOption(speciesOption())
    .addOption(reportFormatOption())
    .addOption(outOption())
    .action(async (id: string, options: ExplainOptions) => done(await runExplain(id, options)));
  records
    .command('sources')
    .description('the bibliography: who uses what, what nothing uses, what is missing')
    .addOption(speciesOption())
    .addOption(bibliographyOption())
    .addOption(formats(SOURCES_FORMATS))
    .addOption(outOption())
    .action(async (options: SourcesOptions) => done(await runSources(options)));
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
    .action(async (options: ExportOptions) => done(await runExport(options)));
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
