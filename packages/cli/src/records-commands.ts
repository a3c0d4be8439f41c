import { type Command, Option } from 'commander';
import { COVERAGE_FORMATS, type CoverageOptions, runCoverage } from './commands/records/coverage.js';
import { runSources, SOURCES_FORMATS, type SourcesOptions } from './commands/records/sources.js';
import { nonEmpty, outOption, speciesOption } from './options.js';

const formats = (choices: readonly string[]): Option => new Option('--format <format>', 'what to print').choices(choices).default('text');

/** `commensal records ...`: what data volunteers do with species records. `done` takes the exit code of the command that ran. */
export function addRecordsCommands(program: Command, done: (code: number) => void): void {
  const records = program.command('records').description('check, repair, write and read species records');
  records
    .command('coverage')
    .description('how many records hold each field, by what it rests on')
    .addOption(speciesOption())
    .option('--family <family>', 'count only records of this family', nonEmpty)
    .option('--form <form>', 'count only records of this form, such as fish', nonEmpty)
    .addOption(formats(COVERAGE_FORMATS))
    .addOption(outOption())
    .action((options: CoverageOptions) => done(runCoverage(options)));
  records
    .command('sources')
    .description('the bibliography: who uses what, what nothing uses, what is missing')
    .addOption(speciesOption())
    .option('--bibliography <file>', 'bibliography to use instead of that of the sample', nonEmpty)
    .addOption(formats(SOURCES_FORMATS))
    .addOption(outOption())
    .action((options: SourcesOptions) => done(runSources(options)));
}
