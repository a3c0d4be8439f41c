import type { Problem } from '@commensal/schema';
import { isError } from './codes.js';

/** What a check came to, before it is printed. */
export interface Checked {
  /** Files that were looked at. */
  readonly records: number;
  /** Files that are there; more than were looked at where only changed ones were. */
  readonly all: number;
  /** In the order of files, lines and columns, each with its file. */
  readonly problems: readonly Problem[];
}

/** How many problems of each level there are. */
export function countsOf(problems: readonly Problem[]): { error: number; warning: number } {
  const error = problems.filter(isError).length;
  return { error, warning: problems.length - error };
}

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

/** A check in one line, such as "3 records, 2 problems: 1 error, 1 warning." */
export function summaryOf({ records, all, problems }: Checked): string {
  const what = records === all ? counted(records, 'record') : `${records} of ${counted(all, 'record')}`;
  if (problems.length === 0) return `${what}, no problem.`;
  const { error, warning } = countsOf(problems);
  return `${what}, ${counted(problems.length, 'problem')}: ${counted(error, 'error')}, ${counted(warning, 'warning')}.`;
}
