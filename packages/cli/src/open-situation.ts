import { type AnyRule, dayOf, type Library, type Stock, settingsProblems, stockOf } from '@commensal/core';
import { type Problem, type Situation, situationProblems } from '@commensal/schema';
import { badCall, BadInput } from './failure.js';
import { FAR_DAY_ALLOWED, farDays, isFarDay } from './far-days.js';
import { readDocument } from './read-document.js';
import { unknownSpecies } from './unknown-species.js';

/** A valid situation with the stock made of it. */
export interface OpenSituation {
  readonly situation: Situation;
  readonly stock: Stock;
}

/** Reads a situation, moves it to another day where that is asked for, and resolves it. */
export function openSituation(file: string, library: Library, rules: readonly AnyRule[], asOf: string | undefined): OpenSituation {
  const { document, parsed } = readDocument<Situation>(file, (data) => problemsIn(data, library, rules));
  const situation = asOf === undefined ? document : movedTo(document, asOf);
  const { stock, problems } = stockOf(situation, library);
  if (problems.length > 0) throw new BadInput(problems.map((problem) => parsed.locate(problem)));
  return { situation, stock };
}

/** All that is wrong with a situation, so that one reading of the messages is enough to put it right. */
function problemsIn(data: unknown, library: Library, rules: readonly AnyRule[]): Problem[] {
  const strangers = unknownSpecies(data, library);
  const told = new Set(strangers.map(({ pointer }) => pointer));
  const own = situationProblems(data).filter(({ pointer }) => !told.has(pointer));
  const settings = own.length > 0 ? [] : settingsProblems(data as Situation, rules);
  return [...own, ...strangers, ...settings, ...farDays(data)];
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
  const found = `--as-of is "${text}"`;
  if (!isDay(text)) {
    throw badCall(
      'no-such-day',
      found,
      'it must be a day of the calendar, such as 2027-03-01',
      'Write year, month and day, joined by hyphens.',
    );
  }
  if (isFarDay(text)) throw badCall('far-day', found, FAR_DAY_ALLOWED, 'Correct the year.');
  return text;
}

function isDay(text: string): boolean {
  try {
    dayOf(text);
    return true;
  } catch {
    return false;
  }
}
