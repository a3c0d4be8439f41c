import type { Study as StudyDocument, StudyVariable } from './generated/study.js';
import { validate } from './generated/study-validator.js';
import type { Situation } from './generated/situation.js';
import { duplicateProblems, wrongOrder } from './document-problems.js';
import { inDocumentOrder } from './in-document-order.js';
import { childPointer, placeName, valueAt } from './pointer.js';
import type { Problem } from './problem.js';
import { problemsOf } from './problems-of.js';
import { situationProblems } from './situation-problems.js';

/** A study document. */
export type Study = Omit<StudyDocument, 'situation'> & { situation: Situation };

/**
 * What is wrong with a study, in the order of the document; nothing where it is right. Its situation is looked at as a document of its own;
 * what no schema can say is looked at once the schema holds. Whether the records have the places that vary is for the library to say.
 *
 * @example
 * studyProblems(data).map((problem) => `${problem.pointer}: ${problem.found}`)
 */
export function studyProblems(data: unknown): Problem[] {
  if (!validate(data)) return problemsOf(validate.errors ?? [], data);
  const study = data as Study;
  const ofSituation = situationProblems(study.situation).map((problem) => ({ ...problem, pointer: `/situation${problem.pointer}` }));
  const variables = study.vary ?? [];
  const own = [
    ...duplicateProblems(
      variables.map(({ name }, index) => ({ id: name, pointer: `/vary/${index}/name` })),
      'Give each variable a name of its own.',
    ),
    ...variables.flatMap(({ at, over }, index) => [
      ...spreadProblems(over, `/vary/${index}/over`),
      ...(ofSituation.length > 0 ? [] : placeProblems(study, at, `/vary/${index}/at`)),
    ]),
    ...takenTwice(variables),
  ];
  return inDocumentOrder(data, [...ofSituation, ...own]);
}

/** Ends in order, as many weights as values. */
function spreadProblems(over: StudyVariable['over'], pointer: string): Problem[] {
  switch (over.kind) {
    case 'uniform':
    case 'log-normal':
      return over.low <= over.high ? [] : [wrongOrder('band-order', `${pointer}/low`, '"low"', over.low, '"high"', over.high)];
    case 'triangular':
      return [
        ...(over.low <= over.mode ? [] : [wrongOrder('band-order', `${pointer}/low`, '"low"', over.low, '"mode"', over.mode)]),
        ...(over.mode <= over.high ? [] : [wrongOrder('band-order', `${pointer}/mode`, '"mode"', over.mode, '"high"', over.high)]),
      ];
    case 'range':
      return over.from <= over.to ? [] : [wrongOrder('band-order', `${pointer}/from`, '"from"', over.from, '"to"', over.to)];
    case 'list':
      return weightProblems(over.values.length, over.weights, pointer);
    case 'words':
      return weightProblems(over.words.length, over.weights, pointer);
    default:
      return [];
  }
}

function weightProblems(values: number, weights: readonly number[] | undefined, pointer: string): Problem[] {
  if (weights === undefined || weights.length === values) return [];
  return [
    {
      code: 'wrong-number',
      pointer: `${pointer}/weights`,
      found: `there are ${weights.length} weights for ${values} values`,
      allowed: 'each value needs one weight',
      fix: 'Give as many weights as values, or none.',
    },
  ];
}

/** Places of the situation must be there: what varies has a middle. */
function placeProblems({ situation }: Study, at: readonly string[], pointer: string): Problem[] {
  return at.flatMap((place, index) => {
    if (!place.startsWith('/situation/') || valueAt({ situation }, place) !== undefined) return [];
    return [
      {
        code: 'no-such-place',
        pointer: childPointer(pointer, String(index)),
        found: `there is nothing at "${place}"`,
        allowed: 'a variable goes to a place that the situation of the study has',
        fix: `Write the place into the situation, with the value in the middle, or correct the pointer: entries of lists count from 0.`,
      },
    ];
  });
}

/** Two variables cannot set one place. */
function takenTwice(variables: readonly StudyVariable[]): Problem[] {
  const first = new Map<string, string>();
  return variables.flatMap(({ name, at }, index) =>
    at.flatMap((place, entry) => {
      const before = first.get(place);
      if (before === undefined || before === name) {
        first.set(place, name);
        return [];
      }
      const pointer = `/vary/${index}/at/${entry}`;
      return [
        {
          code: 'set-twice',
          pointer,
          found: `${placeName(pointer)} is "${place}", which "${before}" sets as well`,
          allowed: 'each place takes the value of one variable',
          fix: 'Take it out of one of them.',
        },
      ];
    }),
  );
}
