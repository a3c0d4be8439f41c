import { figureWords, importMeasurements, jsonText, type MeasurementImport, type RowOutcome } from '@commensal/records';
import type { SpeciesRecord } from '@commensal/schema';
import { BadInput, EXIT } from '../../failure.js';
import { parseJson } from '../../parse-json.js';
import { problemsText } from '../../problems-text.js';
import { openBibliography } from '../../read-bibliography.js';
import { readText } from '../../read-document.js';
import { writeAll } from '../../write-all.js';
import { writeOutput } from '../../write-output.js';
import { recordFilesAt, shownName } from './record-files.js';

export interface ImportOptions {
  readonly records: string;
  readonly bibliography?: string;
  readonly dryRun?: boolean;
  readonly preferMeasured?: boolean;
}

const told = ({ line, id, field, figure, before }: RowOutcome, sign: string): string =>
  before === undefined
    ? `  ${id} ${field}: ${figureWords(figure)}${sign} line ${line}`
    : `  ${id} ${field}: the record has ${figureWords(before)}, line ${line} has ${figureWords(figure)}`;

function section(title: string, rows: readonly RowOutcome[]): string[] {
  return rows.length === 0 ? [] : [`${title} ${rows.length}`, ...rows.map((row) => told(row, ','))];
}

function resultText({ changed, added, replaced, conflicts, already }: MeasurementImport, dryRun: boolean): string {
  const lines = [
    ...section(dryRun ? 'Would be added:' : 'Added:', added),
    ...section(dryRun ? 'Would be replaced by a measured figure:' : 'Replaced by a measured figure:', replaced),
    ...section('Left as they are, for the record has another figure:', conflicts),
    ...(already === 0 ? [] : [`There already: ${already}`]),
    `${changed.length} ${changed.length === 1 ? 'record' : 'records'} ${dryRun ? 'would be written' : 'written'}.`,
  ];
  return `${lines.join('\n')}\n`;
}

/** A record whose form is not even that of a record is none that a table could name. */
const hasName = (record: SpeciesRecord): boolean =>
  typeof record?.id === 'string' && typeof record.taxon?.scientificName === 'string' && Array.isArray(record.sources);

/**
 * `commensal records import MEASUREMENTS.csv --records DIR`: adds measurements to records, and overwrites none. Returns the exit code: 1
 * where a row is wrong, or its field holds another figure already.
 */
export function runImport(table: string, options: ImportOptions): number {
  const { files, problems: unread } = recordFilesAt([options.records]);
  if (unread.length > 0) throw new BadInput(unread);
  const entries = files
    .map((file) => ({ file, record: parseJson(readText(file), file).data as SpeciesRecord }))
    .filter(({ record }) => hasName(record));
  const result = importMeasurements(readText(table), {
    file: shownName(table),
    entries,
    bibliography: openBibliography(options.bibliography),
    preferMeasured: options.preferMeasured === true,
  });
  const dryRun = options.dryRun === true;
  if (!dryRun) writeAll(result.changed.map(({ file, record }) => ({ file, text: jsonText(record) })));
  writeOutput(resultText(result, dryRun), undefined);
  if (result.problems.length > 0) process.stderr.write(problemsText(result.problems));
  return result.problems.length > 0 || result.conflicts.length > 0 ? EXIT.found : EXIT.done;
}
