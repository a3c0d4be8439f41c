import { formProblems, isInOrder, type ProblemContext, recordProblems } from '@commensal/records';
import { isSpeciesRecord, type Problem, type SpeciesRecord, speciesProblems } from '@commensal/schema';
import { BadInput } from '../../failure.js';
import { type Parsed, parseJson } from '../../parse-json.js';
import { readText } from '../../read-document.js';
import { shownName } from './record-files.js';

/** A file as it was read; `parsed` is missing where it is no JSON. */
export interface ReadFile {
  readonly text: string;
  readonly parsed: Parsed;
  /** The record, where the schema takes it. */
  readonly record: SpeciesRecord | undefined;
  /** What schema and names have against it, with line and column. */
  readonly problems: readonly Problem[];
}

/** Reads a file of a record; the problems alone where it cannot be read or is no JSON. */
export function readRecord(file: string): ReadFile | readonly Problem[] {
  const name = shownName(file);
  try {
    const text = readText(file);
    const parsed = parseJson(text, name);
    const problems = speciesProblems(parsed.data).map(parsed.locate);
    return { text, parsed, record: isSpeciesRecord(parsed.data) ? parsed.data : undefined, problems };
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    return error.problems.map((problem) => ({ ...problem, file: name }));
  }
}

export const isUnread = (read: ReadFile | readonly Problem[]): read is readonly Problem[] => Array.isArray(read);

/** What is wrong with one record by itself. Plausibility and form are looked at where the schema takes it. */
export function problemsIn({ text, parsed, record, problems }: ReadFile, context: ProblemContext): readonly Problem[] {
  if (record === undefined) return problems;
  const implausible = recordProblems(record, context);
  // Where a figure is wrong its unit is mostly what is wrong: that it is no canonical one says nothing more.
  const isInDoubt = ({ code, pointer }: Problem): boolean =>
    code === 'unit-not-canonical' && implausible.some((problem) => pointer.startsWith(`${problem.pointer}/`));
  const ofForm = parsed.isAsPrinted && isInOrder(record) ? [] : formProblems(text);
  return [
    ...problems,
    ...implausible.map(parsed.locate),
    ...ofForm.filter((problem) => !isInDoubt(problem)).map((problem) => ({ ...problem, file: parsed.file })),
  ];
}
