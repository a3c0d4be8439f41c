import { check, rules } from '@commensal/core';
import { checkMarkdown, checkText, namesIn } from '@commensal/report';
import type { CheckReport } from '@commensal/schema';
import { EXIT } from '../failure.js';
import { catalogueOf } from '../languages.js';
import { openLibrary } from '../library.js';
import { openSituation, readDate } from '../open-situation.js';
import type { SharedOptions } from '../options.js';
import { noticeDepth, textOptions } from '../text-options.js';
import { schemaOf, versionsOf } from '../versions.js';
import { refuseToOverwrite, writeOutput } from '../write-output.js';

/** `commensal check SITUATION`: findings for what is there and what is planned. Returns the exit code. */
export async function runCheck(file: string, options: SharedOptions): Promise<number> {
  refuseToOverwrite(file, options.out);
  const library = await openLibrary(options.species);
  const { situation, stock } = openSituation(file, library, rules, options.asOf === undefined ? undefined : readDate(options.asOf));
  const report: CheckReport = { $schema: schemaOf('check'), ...check(stock, rules), versions: versionsOf(library) };
  const voice = { catalogue: await catalogueOf(options.lang), units: options.units, names: namesIn(situation, library, options.lang) };
  noticeDepth(options);
  const print = options.format === 'markdown' ? checkMarkdown : checkText;
  writeOutput(
    options.format === 'json'
      ? `${JSON.stringify(report, null, 2)}\n`
      : print(voice, situation, report, textOptions(options, library, rules)),
    options.out,
  );
  const { failed, cantTell } = report.summary;
  return failed.error > 0 || (options.strict === true && cantTell.error > 0) ? EXIT.found : EXIT.done;
}
