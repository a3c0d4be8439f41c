import type { Problem } from '@commensal/schema';

/** Exit codes of every command. */
export const EXIT = { done: 0, found: 1, badInput: 2, broken: 3, interrupted: 130 } as const;

/** The input or the call is at fault: exit 2, nothing written. */
export class BadInput extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map((problem) => problem.found).join('; '));
    this.problems = problems;
  }
}

/** The machine is at fault: exit 3. */
export class Broken extends Error {}

/** One problem with no place in a document, such as a call. */
export const badCall = (code: string, found: string, allowed: string, fix: string): BadInput =>
  new BadInput([{ code, pointer: '', found, allowed, fix }]);
