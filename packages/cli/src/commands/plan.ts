import { joinSteps, MOST_OPTIONS, numbersWished, type PlanChoice, planInSteps, rules } from '@commensal/core';
import { namesIn, planInParts, planMarkdown, planText } from '@commensal/report';
import type { Plan } from '@commensal/schema';
import { badCall, EXIT } from '../failure.js';
import { catalogueOf } from '../languages.js';
import { openLibrary } from '../library.js';
import { openSituation, readDate } from '../open-situation.js';
import type { SharedOptions } from '../options.js';
import { noticeDepth, textOptions } from '../text-options.js';
import { schemaOf, versionsOf } from '../versions.js';
import { refuseToOverwrite, writeOutput, writesToStandardOutput, writeStandardOutput } from '../write-output.js';

/**
 * `commensal plan SITUATION`: narrow the wish list, plan the introductions, explain what was left out. Returns the exit code. Text on standard
 * output begins with what goes in as soon as that is known; why the rest is left out takes about as long again.
 */
export async function runPlan(file: string, options: SharedOptions): Promise<number> {
  refuseToOverwrite(file, options.out);
  const library = await openLibrary(options.species);
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
  const { choice, isImpossible, leftOut, explain } = planInSteps(situation, library, rules);
  const whole = (): Plan => ({ $schema: schemaOf('plan'), ...joinSteps(choice, explain()), versions: versionsOf(library) });
  noticeDepth(options);
  if (options.format === 'json') writeOutput(`${JSON.stringify(whole(), null, 2)}\n`, options.out);
  else {
    const newcomers = choice.introductions.flatMap((introduction) => introduction.animals);
    const voice = {
      catalogue: await catalogueOf(options.lang),
      units: options.units,
      names: namesIn(situation, library, options.lang, [...(situation.wishes ?? []).map(({ species }) => ({ species })), ...newcomers]),
    };
    const texts = textOptions(options, library, rules);
    const parts = planInParts(options.format, voice, situation, texts);
    const isAtOnce = !isImpossible && writesToStandardOutput(options.out);
    const isRead = !isAtOnce || writeStandardOutput(parts.first(choice, leftOut));
    // Whoever has stopped reading wants no reasons either.
    if (!isRead) return exitOf(choice, isImpossible, leftOut, options);
    if (isAtOnce) writeStandardOutput(parts.rest(whole()));
    else writeOutput((options.format === 'markdown' ? planMarkdown : planText)(voice, situation, whole(), texts), options.out);
  }
  return exitOf(choice, isImpossible, leftOut, options);
}

function exitOf({ chosen, summary }: PlanChoice, isImpossible: boolean, leftOut: number, { strict }: SharedOptions): number {
  const nothing = isImpossible || (chosen.length === 0 && leftOut > 0);
  return nothing || (strict === true && summary.cantTell.error > 0) ? EXIT.found : EXIT.done;
}
