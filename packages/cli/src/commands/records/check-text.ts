import type { Problem } from '@commensal/schema';
import { problemsText } from '../../problems-text.js';
import { type Checked, summaryOf } from './checked.js';
import { helpOf, isError } from './codes.js';

/** A file may have any name: a line break or an escape in it must not pass for output of ours. */
export const onOneLine = (name: string): string =>
  name.replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);

/** Problems for people: those of every command, with what is no error marked so, and the page on each code. */
const asText = (problem: Problem): Problem => ({
  ...problem,
  ...(problem.file === undefined ? {} : { file: onOneLine(problem.file) }),
  code: isError(problem) ? problem.code : `${problem.code} (warning)`,
  found: onOneLine(problem.found),
  fix: `${problem.fix}\n  ${helpOf(problem.code)}`,
});

/** What a check found, as text. */
export function checkText(checked: Checked): string {
  const summary = `${summaryOf(checked)}\n`;
  return checked.problems.length === 0 ? summary : `${problemsText(checked.problems.map(asText))}\n${summary}`;
}
