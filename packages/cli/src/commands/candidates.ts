import { cautionsOf, candidatesFor, isoOf, type Library, recordOf, rules } from '@commensal/core';
import { candidatesMarkdown, candidatesText, namesIn } from '@commensal/report';
import type { Candidates } from '@commensal/schema';
import { BadInput, EXIT } from '../failure.js';
import { catalogueOf } from '../languages.js';
import { openLibrary } from '../library.js';
import { openSituation, readDate } from '../open-situation.js';
import type { SharedOptions } from '../options.js';
import { textOptions } from '../text-options.js';
import { fixFor } from '../unknown-species.js';
import { schemaOf, versionsOf } from '../versions.js';
import { refuseToOverwrite, writeOutput } from '../write-output.js';

/** `commensal check SITUATION --candidates ...`: which species may join the tank as it is. Returns the exit code. */
export async function runCandidates(file: string, asked: string, options: SharedOptions): Promise<number> {
  refuseToOverwrite(file, options.out);
  const library = await openLibrary(options.species);
  const species = asked === 'all' ? [...library.records.keys()] : speciesIn(asked, library);
  const { situation, stock } = openSituation(file, library, rules, options.asOf === undefined ? undefined : readDate(options.asOf));
  const found = candidatesFor(situation, library, { species });
  const joining = found.filter(({ mayJoin }) => mayJoin).map(({ species: id }) => recordOf(library, id));
  const report: Candidates = {
    $schema: schemaOf('candidates'),
    date: isoOf(Math.max(stock.day, stock.settings.notBefore ?? stock.day)),
    candidates: found.map(({ species: id, count, lengthCm, mayJoin, because, doubts = 0 }) => ({
      species: id,
      count,
      ...(lengthCm === undefined ? {} : { length: { value: lengthCm, unit: 'cm' as const } }),
      mayJoin,
      because: [...because],
      doubts,
    })),
    cautions: cautionsOf([...stock.animals.map(({ kind }) => kind.record), ...joining.filter((record) => record !== undefined)], {
      kept: stock.tank.kept,
    }),
    versions: versionsOf(library),
  };
  const names = namesIn(
    situation,
    library,
    options.lang,
    species.map((id) => ({ species: id })),
  );
  const voice = { catalogue: await catalogueOf(options.lang), units: options.units, names };
  const print = options.format === 'markdown' ? candidatesMarkdown : candidatesText;
  writeOutput(
    options.format === 'json'
      ? `${JSON.stringify(report, null, 2)}\n`
      : print(voice, situation, report, textOptions(options, library, rules)),
    options.out,
  );
  return EXIT.done;
}

/** Ids with commas between them; records that replace others stand for them, and each is asked for once. */
function speciesIn(asked: string, library: Library): string[] {
  const ids = [...new Set(asked.split(',').map((id) => id.trim()))];
  const records = ids.flatMap((id) => recordOf(library, id) ?? []);
  if (records.length < ids.length) {
    const unknown = ids.filter((id) => recordOf(library, id) === undefined);
    throw new BadInput(
      unknown.map((id) => ({
        code: 'unknown-species',
        pointer: '',
        found: `--candidates names ${JSON.stringify(id)}`,
        allowed: `none of the ${library.records.size} records at hand has this id; "all" asks about each`,
        fix: id === '' ? 'Name species by their ids, with commas between them.' : fixFor(id, library),
      })),
    );
  }
  return [...new Set(records.map(({ id }) => id))];
}
