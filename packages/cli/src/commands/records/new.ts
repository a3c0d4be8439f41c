import { existsSync } from 'node:fs';
import path from 'node:path';
import { createInterface } from 'node:readline/promises';
import type { Library } from '@commensal/core';
import {
  draftRecord,
  entriesAt,
  FIELDS,
  RECORD_ENDING,
  recordedAs,
  recordPath,
  recordText,
  voiceFor,
  worthFinding,
  worthLines,
  worthNote,
} from '@commensal/records';
import { type SpeciesRecord, speciesProblems } from '@commensal/schema';
import { bibliography, release } from '@commensal/species-sample';
import { badCall, BadInput, EXIT } from '../../failure.js';
import { openLibrary } from '../../library.js';
import { writeNewFile, writeOutput } from '../../write-output.js';
import { type Ask, type NewOptions, understood } from './new-input.js';

/** Somebody to ask, where standard input is a terminal and nobody said not to. Questions go to standard error: results stay clean. */
async function asking<Result>(options: NewOptions, use: (ask: Ask | undefined) => Promise<Result>): Promise<Result> {
  if (options.input === false || !process.stdin.isTTY) return use(undefined);
  const terminal = createInterface({ input: process.stdin, output: process.stderr });
  // Control-C ends the whole command, not only the question.
  terminal.on('SIGINT', () => process.exit(EXIT.interrupted));
  try {
    // Lines are taken one by one from those typed, also ahead of their question. After the last, no answer: what lacks is told as missing.
    const lines = terminal[Symbol.asyncIterator]();
    return await use(async (question) => {
      process.stderr.write(question);
      const { value, done } = await lines.next();
      return done === true ? '' : value;
    });
  } finally {
    terminal.close();
  }
}

/** Where the record goes: a file that is named, or its place in a folder of records; undefined for standard output. */
function placeFor(record: SpeciesRecord, out = '.'): string | undefined {
  if (out === '-') return undefined;
  return out.endsWith(RECORD_ENDING) ? out : path.join(out, recordPath(record));
}

const alreadyThere = (found: string): BadInput =>
  badCall(
    'already-there',
    found,
    'a new record takes the place of nothing',
    'Change the record that is there, or name another place with --out.',
  );

function refuseKnown(scientificName: string, library: Library): void {
  const known = recordedAs(scientificName, library);
  if (known === undefined) return;
  const as = known.taxon.scientificName === scientificName ? '' : `, as a synonym of ${known.taxon.scientificName}`;
  throw badCall(
    'already-recorded',
    `${scientificName} has a record, ${known.id}${as}`,
    'a species has one record',
    `Change that record; commensal records explain ${known.id} tells what it lacks.`,
  );
}

/** The figures that stand in, a line each. */
const filledLines = (record: SpeciesRecord): string[] =>
  FIELDS.flatMap((field) =>
    entriesAt(record, field)
      .filter(({ basis }) => basis === 'imputed')
      .map(({ from, low, high, value, a, b, source }) => {
        const amount = typeof value === 'number' ? `${value}, from ${low} to ${high}` : `a ${a}, b ${b}`;
        return `  ${field}: ${amount} (${from}; ${source})`;
      }),
  );

/** `commensal records new NAME`: a first record, and what is worth finding out. Returns the exit code. */
export async function runNew(scientificName: string, options: NewOptions): Promise<number> {
  const opened = await openLibrary(options.species);
  // Records of one's own have no release; the next one is that of the sample.
  const library = { ...opened, release: options.species === undefined ? opened.release : release };
  const name = scientificName.trim().replaceAll(/\s+/g, ' ');
  refuseKnown(name, library);
  const sources = bibliography.map(({ id }) => id);
  const { input, problems, notices } = await asking(options, (ask) => understood(name, options, library, sources, ask));
  if (input === undefined) throw new BadInput(problems);
  const record = draftRecord(input, library);
  const wrong = speciesProblems(record);
  if (wrong.length > 0) throw new BadInput(wrong);
  const place = placeFor(record, options.out);
  if (place !== undefined && existsSync(place)) throw alreadyThere(`there is a file "${place}"`);

  for (const notice of notices) process.stderr.write(`${notice}\n`);
  const found = worthFinding(record, library);
  const text = recordText(record);
  const isWritten = options.dryRun !== true && place !== undefined;
  if (isWritten) writeNewFile(text, place, alreadyThere);
  writeOutput(
    options.format === 'json'
      ? `${JSON.stringify({ file: place ?? '-', written: isWritten, record, ...found }, null, 2)}\n`
      : place === undefined
        ? text
        : told(record, found, library, place, isWritten, text),
    undefined,
  );
  // The record alone is the result then; what to do next still reaches the person.
  if (place === undefined && options.format === 'text') process.stderr.write(worthText(record, found, library));
  return EXIT.done;
}

function worthText(record: SpeciesRecord, found: ReturnType<typeof worthFinding>, library: Library): string {
  const lines = worthLines(voiceFor(record, library), found).map((line, at) => `${String(at + 1).padStart(3)}. ${line}`);
  return ['Worth finding out first, by how much hangs on it:', ...lines, '', worthNote(found), ''].join('\n');
}

function told(
  record: SpeciesRecord,
  found: ReturnType<typeof worthFinding>,
  library: Library,
  place: string,
  isWritten: boolean,
  text: string,
): string {
  const filled = filledLines(record);
  return [
    ...(isWritten ? [`Wrote ${place}`] : [`Nothing is written. ${place} would hold:`, '', text.trimEnd()]),
    '',
    ...(filled.length === 0
      ? ['Nothing stands in: the tables hold no figures of its genus or family.']
      : ['Standing in until it is measured, with the error of doing so:', ...filled]),
    '',
    worthText(record, found, library),
  ].join('\n');
}
