import { RECORD_CODES, type RecordCode } from '@commensal/records';
import type { Problem } from '@commensal/schema';

/** Every code that a check of records may give. */
export const CODES: ReadonlyMap<string, RecordCode> = new Map(
  Object.entries(RECORD_CODES).sort(([one], [other]) => (one < other ? -1 : 1)),
);

const HELP = 'https://commensal.example/docs/problems/';

/** The page of the documentation on a code. */
export const helpOf = (code: string): string => HELP + code;

/** A code that is in no list is taken seriously rather than passed over. */
export const levelOf = (code: string): RecordCode['level'] => CODES.get(code)?.level ?? 'error';

export const isError = ({ code }: Problem): boolean => levelOf(code) === 'error';
