import { RECORD_CODES, type RecordCode } from '@commensal/records';
import type { Problem } from '@commensal/schema';
import { problemCodes } from './plausible.js';

/** Those that a call of the command line ends with are no problems of records. */
const plausibility = problemCodes
  .filter(({ foundIn }) => foundIn !== 'call')
  .map(({ code, level, title }): [string, RecordCode] => [code, { level, says: `${title}.` }]);

/** Every code that a check of records may give, in alphabetical order; where both lists have one, it is worded as in the longer list. */
export const CODES: ReadonlyMap<string, RecordCode> = new Map(
  [...new Map([...plausibility, ...Object.entries(RECORD_CODES)])].sort(([one], [other]) => (one < other ? -1 : 1)),
);

const HELP = 'https://commensal.example/docs/problems/';

/** The page of the documentation on a code. */
export const helpOf = (code: string): string => HELP + code;

/** A code that is in no list is taken seriously rather than passed over. */
export const levelOf = (code: string): RecordCode['level'] => CODES.get(code)?.level ?? 'error';

export const isError = ({ code }: Problem): boolean => levelOf(code) === 'error';
