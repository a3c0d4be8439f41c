import { childPointer, didYouMean, nearestWord, placeName, type Problem, type SpeciesRecord } from '@commensal/schema';
import type { FoundIn } from '../codes/code.js';
import { PROBLEM_CODES, RECORD_CODES } from '../codes/record-codes.js';

const CAN_BE_EXCEPTED: ReadonlySet<string> = new Set(
  Object.entries(RECORD_CODES).flatMap(([code, { exception }]) => (exception === undefined ? [] : [code])),
);

type Exception = NonNullable<SpeciesRecord['exceptions']>[number];

/** A code that is misspelt is told by itself, and covers what it was meant for. */
const codeMeant = (code: string): string | undefined =>
  PROBLEM_CODES[code] === undefined ? nearestWord(code, [...CAN_BE_EXCEPTED]) : code;

const covers = ({ code, at }: Exception, problem: Problem): boolean =>
  problem.code === codeMeant(code) && (problem.pointer === at || problem.pointer.startsWith(`${at}/`));

/** An exception at a place that is near the one it was meant for. */
function meantPlace(exception: Exception, problems: readonly Problem[]): string | undefined {
  const places = problems.filter(({ code }) => code === exception.code).map(({ pointer }) => pointer);
  return nearestWord(exception.at, places) ?? (places.length === 1 ? places[0] : undefined);
}

function notNeeded({ code, at }: Exception, pointer: string, meant: string | undefined): Problem {
  return {
    code: 'exception-not-needed',
    pointer,
    found: `${placeName(pointer)} excepts "${code}" at "${at}", where nothing of the kind is found`,
    allowed: 'an exception stands only for a problem that would be reported',
    fix: meant === undefined ? 'Take it out.' : `Did you mean "${meant}"?`,
  };
}

/**
 * The problems that are left after the exceptions of a record, and those of the exceptions. Only exceptions for codes found where the problems
 * were looked for are judged: whether others are needed does not show there.
 */
export function withExceptions(record: Pick<SpeciesRecord, 'exceptions'>, problems: readonly Problem[], foundIn: FoundIn): Problem[] {
  const left = new Set(problems);
  const told: Problem[] = [];
  for (const [index, exception] of (record.exceptions ?? []).entries()) {
    const covered = problems.filter((problem) => covers(exception, problem));
    for (const problem of covered) left.delete(problem);
    if (covered.length > 0 || !CAN_BE_EXCEPTED.has(exception.code) || RECORD_CODES[exception.code]?.foundIn !== foundIn) continue;
    const meant = meantPlace(exception, [...left]);
    // One mistake: the place of the exception. What it was meant for goes away once that is right.
    for (const problem of left) if (problem.code === exception.code && problem.pointer === meant) left.delete(problem);
    told.push(notNeeded(exception, childPointer('/exceptions', index), meant));
  }
  return [...left, ...told];
}

/** The exceptions for codes that there are none of, or of which none can be right. */
export function unknownExceptions({ exceptions = [] }: Pick<SpeciesRecord, 'exceptions'>): Problem[] {
  return exceptions.flatMap(({ code }, index): Problem[] => {
    if (CAN_BE_EXCEPTED.has(code)) return [];
    const pointer = `/exceptions/${index}/code`;
    const isKnown = PROBLEM_CODES[code] !== undefined;
    return [
      {
        code: 'unknown-exception',
        pointer,
        found: `${placeName(pointer)} is "${code}"`,
        allowed: isKnown ? 'what has that code is never right as it stands' : 'there is no problem of that code',
        fix: isKnown
          ? 'Take the exception out, and put right what was reported.'
          : didYouMean(code, [...CAN_BE_EXCEPTED], 'Copy the code from the message.'),
      },
    ];
  });
}
