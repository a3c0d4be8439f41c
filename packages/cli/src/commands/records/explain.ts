import { existsSync } from 'node:fs';
import { libraryOf, nearMiss, recordOf, type Library } from '@commensal/core';
import { explain, explainMarkdown, explainText, RECORD_ENDING } from '@commensal/records';
import { type SpeciesRecord, speciesProblems } from '@commensal/schema';
import { bibliography } from '@commensal/species-sample';
import { badCall, EXIT } from '../../failure.js';
import { openLibrary } from '../../library.js';
import { readDocument } from '../../read-document.js';
import { writeOutput } from '../../write-output.js';

export interface ExplainOptions {
  readonly species?: string;
  readonly format: 'text' | 'markdown' | 'json';
  readonly out?: string;
}

/** A record by its id, or from a file: what is no id of a record and names a file, or ends as files of records do, is one. */
function recordFrom(what: string, library: Library): SpeciesRecord {
  const known = recordOf(library, what);
  if (known !== undefined) return known;
  if (what === '-' || what.endsWith(RECORD_ENDING) || existsSync(what)) return readDocument<SpeciesRecord>(what, speciesProblems).document;
  const near = nearMiss(what, [...library.records.keys()]);
  throw badCall(
    'unknown-species',
    `no record has the id "${what}", and there is no such file`,
    `it must be the id of one of ${library.records.size} records, or a file that ends in ${RECORD_ENDING}`,
    near === undefined ? 'Write genus and species in small letters, joined by a hyphen.' : `Did you mean ${near}?`,
  );
}

/** `commensal records explain ID|FILE`: one record as prose. Returns the exit code. */
export async function runExplain(what: string, { species, format, out }: ExplainOptions): Promise<number> {
  const library = await openLibrary(species);
  const record = recordFrom(what, library);
  // A file is explained beside the records that are there, in place of one of its own name.
  const others = [...library.records.values()].filter(({ id }) => id !== record.id);
  const explained = explain(record, libraryOf([...others, record], library.standIns, library.release), bibliography);
  const { id, standings, worth } = explained;
  const printed = {
    text: () => explainText(explained),
    markdown: () => explainMarkdown(explained),
    json: () => `${JSON.stringify({ id, standings, ...worth }, null, 2)}\n`,
  };
  writeOutput(printed[format](), out);
  return EXIT.done;
}
