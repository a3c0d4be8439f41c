import { darwinCoreArchive, jsonLines } from '@commensal/records';
import { badCall, EXIT } from '../../failure.js';
import { openLibrary } from '../../library.js';
import { openBibliography } from '../../read-bibliography.js';
import { writeFolder } from '../../write-all.js';
import { writeOutput } from '../../write-output.js';

export interface ExportOptions {
  readonly format: 'dwc' | 'jsonl';
  readonly out?: string;
  readonly species?: string;
  readonly bibliography?: string;
}

const OF_SAMPLE = {
  title: 'Commensal: sample records of marine aquarium species',
  creator: 'Commensal contributors',
  rights:
    'This work is licensed under a Creative Commons Attribution 4.0 International License (CC BY 4.0), https://creativecommons.org/licenses/by/4.0/.',
};

/** Whose the records of a folder are, and what may be done with them, is nothing that they say themselves. */
const OF_FOLDER = (folder: string): typeof OF_SAMPLE => ({
  title: `Species records of the folder ${folder}`,
  creator: 'Not stated: whoever keeps these records',
  rights: 'No licence is stated with these records: ask whoever keeps them.',
});

/** `commensal records export`: the records as a Darwin Core Archive or as JSON Lines. Returns the exit code. */
export async function runExport({ format, out, species, bibliography }: ExportOptions): Promise<number> {
  if (format === 'dwc' && (out === undefined || out === '-')) {
    throw badCall('no-folder', 'an archive was asked for without --out', 'it is a folder of files', 'Name a new folder with --out.');
  }
  const library = await openLibrary(species);
  const records = [...library.records.values()];
  if (format === 'jsonl') {
    writeOutput(jsonLines(records), out);
    return EXIT.done;
  }
  const folder = out as string;
  const { release } = library;
  const files = darwinCoreArchive(records, {
    bibliography: openBibliography(bibliography),
    ...(species === undefined ? { ...OF_SAMPLE, release } : OF_FOLDER(release ?? species)),
  });
  writeFolder(
    folder,
    files.map(({ name, text }) => ({ file: name, text })),
  );
  const rows = files.filter(({ name }) => name.endsWith('.csv')).map(({ name, text }) => `${name} ${text.split('\r\n').length - 2} rows`);
  process.stderr.write(`${folder}: ${records.length} records; ${rows.join(', ')}\n`);
  return EXIT.done;
}
