import { MOST_OPTIONS, numbersWished, plan, rules } from '@commensal/core';
import { namesIn, planMarkdown, planText } from '@commensal/report';
import type { Plan } from '@commensal/schema';
import { badCall, EXIT } from '../failure.js';
import { catalogueOf } from '../languages.js';
import { openLibrary } from '../library.js';
import { openSituation, readDate } from '../open-situation.js';
import type { SharedOptions } from '../options.js';
import { noticeDepth, textOptions } from '../text-options.js';
import { schemaOf, versionsOf } from '../versions.js';
import { refuseToOverwrite, writeOutput } from '../write-output.js';

/** `commensal plan SITUATION`: narrow the wish list, plan the introductions, explain what was left out. Returns the exit code. */
export function runPlan(file: string, options: SharedOptions): number {
  refuseToOverwrite(file, options.out);
  const library = openLibrary(options.species);
  const { situation } = openSituation(file, library, rules, options.asOf === undefined ? undefined : readDate(options.asOf));
  const numbers = numbersWished(situation);
  if (numbers > MOST_OPTIONS) {
    throw badCall(
      'too-many-numbers',
      `the wishes leave ${numbers} numbers of animals to choose from`,
      `a plan weighs ${MOST_OPTIONS} at most`,
      'Make the ranges of count narrower.',
    );
  }
  const result: Plan = { $schema: schemaOf('plan'), ...plan(situation, library, rules), versions: versionsOf(library) };
  const newcomers = result.introductions.flatMap((introduction) => introduction.animals);
  const leftOut = result.leftOut.map(({ species }) => ({ species }));
  const voice = {
    catalogue: catalogueOf(options.lang),
    units: options.units,
    names: namesIn(situation, library, options.lang, [...leftOut, ...newcomers]),
  };
  noticeDepth(options);
  const print = options.format === 'markdown' ? planMarkdown : planText;
  writeOutput(
    options.format === 'json'
      ? `${JSON.stringify(result, null, 2)}\n`
      : print(voice, situation, result, textOptions(options, library, rules)),
    options.out,
  );
  const nothing = result.impossible !== undefined || (result.chosen.length === 0 && result.leftOut.length > 0);
  return nothing || (options.strict === true && result.summary.cantTell.error > 0) ? EXIT.found : EXIT.done;
}
