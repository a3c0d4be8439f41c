import type { Command } from 'commander';

/** `commensal records ...`: what data volunteers do with species records. `done` takes the exit code of the command that ran. */
export function addRecordsCommands(program: Command, _done: (code: number) => void): void {
  program.command('records').description('check, repair, write and read species records');
}
