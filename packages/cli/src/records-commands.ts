import type { Command } from 'commander';
import { runMigrate } from './commands/records/migrate.js';

/** `commensal records ...`: what data volunteers do with species records. `done` takes the exit code of the command that ran. */
export function addRecordsCommands(program: Command, done: (code: number) => void): void {
  const records = program.command('records').description('check, repair, write and read species records');
  records
    .command('migrate')
    .description('bring records of earlier versions of the schema to the present one')
    .argument('<paths...>', 'records, or folders of records')
    .option('--dry-run', 'say what would be written, and write nothing')
    .action((paths: string[], options: { dryRun?: boolean }) => done(runMigrate(paths, options)));
}
