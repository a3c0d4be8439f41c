import { type AnyRule, type Library, type Stock, settingsProblems, stockOf } from '@commensal/core';
import { type Situation, situationProblems } from '@commensal/schema';
import { badCall, BadInput } from './failure.js';
import { withNearest } from './library.js';
import { readDocument } from './read-document.js';

/** A valid situation with the stock made of it. */
export interface OpenSituation {
  readonly situation: Situation;
  readonly stock: Stock;
}

/** Reads a situation, moves it to another day where that is asked for, and resolves it. */
export function openSituation(file: string, library: Library, rules: readonly AnyRule[], asOf: string | undefined): OpenSituation {
  const { document, parsed } = readDocument<Situation>(file, situationProblems);
  const situation = asOf === undefined ? document : movedTo(document, asOf);
  const { stock, problems } = stockOf(situation, library);
  const named = problems.map((problem) => (problem.code === 'unknown-species' ? withNearest(problem, JSON.parse(problem.found) as string, library) : problem));
  const all = [...named, ...settingsProblems(situation, rules)];
  if (all.length > 0) throw new BadInput(all.map((problem) => parsed.locate(problem)));
  return { situation, stock };
}

/** The same tank on another day: lengths that counted from the old day still do. */
function movedTo(situation: Situation, asOf: string): Situation {
  const residents = situation.residents?.map((resident) =>
    resident.length === undefined || resident.measuredOn !== undefined ? resident : { ...resident, measuredOn: situation.date },
  );
  return { ...situation, date: asOf, ...(residents === undefined ? {} : { residents }) };
}

/** A date from the command line. */
export function readDate(text: string): string {
  const situation = { $schema: 'https://commensal.example/schema/1.0/situation.schema.json', date: text, tank: { water: { value: 1, unit: 'L' } } };
  if (situationProblems(situation).length > 0) {
    throw badCall('no-such-day', `--as-of is "${text}"`, 'a date like 2027-03-01', 'Write year, month and day with hyphens.');
  }
  return text;
}
