import { closeSync, createReadStream, existsSync, openSync, readSync, statSync, writeSync } from 'node:fs';
import path from 'node:path';
import { StringDecoder } from 'node:string_decoder';
import type { CompiledStudy, Variable } from '@commensal/core';
import type { Problem } from '@commensal/schema';
import { parse } from 'csv-parse';
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from 'hyparquet';
import { badCall, BadInput, Broken } from '../failure.js';

/** Scenarios that a table gives: their values as doubles in a file, row after row, so that any block of them can be read. */
export interface Given {
  readonly file: string;
  readonly rows: number;
}

/** Problems that are told of one table; a wrong column would repeat itself in each of a million rows. */
const MOST_PROBLEMS = 20;

/** Numbers written at a time. */
const CHUNK = 65_536;

/** A row of a table, with the line (or row) it stands in. */
interface Row {
  readonly line: number;
  readonly cells: Readonly<Record<string, unknown>>;
}

/** Some rows at a time: to wait for each would take longer than to read it. */
type Rows = AsyncIterable<readonly Row[]>;

/**
 * Reads a table of scenarios into `target`: NDJSON, CSV with a line of names, or Parquet, by the ending of its name, with a column for every variable.
 *
 * @throws BadInput naming line and column of what is wrong.
 */
export async function readGiven(table: string, variables: readonly Variable[], target: string): Promise<Given> {
  if (!existsSync(table) || statSync(table).isDirectory()) {
    throw badCall('no-such-file', `there is no file "${table}"`, 'it must be a table of scenarios', 'Check the name and the folder.');
  }
  const problems: Problem[] = [];
  const readers = variables.map((variable) => readerOf(variable));
  const known = new Set(['scenario', 'replicate', ...variables.map(({ name }) => name)]);
  const buffer = new Float64Array(Math.max(1, Math.floor(CHUNK / Math.max(1, variables.length))) * Math.max(1, variables.length));
  let filled = 0;
  let rows = 0;
  let file: number | undefined;
  try {
    file = openSync(target, 'w');
    const flush = (): void => {
      const bytes = Buffer.from(buffer.buffer, 0, filled * 8);
      for (let at = 0; at < bytes.length; ) at += writeSync(file as number, bytes, at);
      filled = 0;
    };
    const take = ({ line, cells }: Row): void => {
      for (let at = 0; at < variables.length; at += 1) {
        const variable = variables[at] as Variable;
        const value = (readers[at] as (cell: unknown) => number)(cells[variable.name]);
        if (Number.isNaN(value)) problems.push(wrongCell(table, line, variable, cells));
        buffer[filled] = value;
        filled += 1;
      }
      for (const name in cells) {
        if (known.has(name)) continue;
        problems.push(strangeColumn(table, line, variables, name));
        // Once is enough.
        known.add(name);
      }
      rows += 1;
      if (filled === buffer.length) flush();
    };
    for await (const some of rowsOf(table)) {
      for (const row of some) if (problems.length < MOST_PROBLEMS) take(row);
      if (problems.length >= MOST_PROBLEMS) break;
    }
    flush();
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw new Broken(`The table "${table}" cannot be taken over (${(error as NodeJS.ErrnoException).code ?? (error as Error).message}).`);
  } finally {
    if (file !== undefined) closeSync(file);
  }
  if (problems.length > 0) throw new BadInput(problems);
  if (rows === 0) throw badCall('empty-table', `"${table}" has no rows`, 'a table of scenarios has one row a scenario', 'Add some.');
  return { file: target, rows };
}

/** A number, or the place of a word; NaN for what is neither. */
function readerOf({ words, isWhole }: Variable): (cell: unknown) => number {
  if (words !== undefined) {
    const places = new Map(words.map((word, at) => [word, at]));
    return (cell) => places.get(String(cell)) ?? Number.NaN;
  }
  return (cell) => {
    const value =
      typeof cell === 'number'
        ? cell
        : typeof cell === 'bigint'
          ? Number(cell)
          : typeof cell === 'string' && cell.trim() !== ''
            ? Number(cell)
            : Number.NaN;
    return Number.isFinite(value) && (!isWhole || Number.isInteger(value)) ? value : Number.NaN;
  };
}

function wrongCell(file: string, line: number, { name, words, isWhole }: Variable, cells: Readonly<Record<string, unknown>>): Problem {
  const cell = cells[name];
  const found =
    cell === undefined ? `there is no "${name}"` : `"${name}" is ${typeof cell === 'string' ? JSON.stringify(cell) : String(cell)}`;
  const allowed =
    words === undefined
      ? `it must be a ${isWhole ? 'whole ' : ''}number`
      : `it must be ${words.length > 8 ? `one of the ${words.length} words of the study` : words.join(', ')}`;
  return {
    file,
    line,
    code: cell === undefined ? 'missing' : 'wrong-value',
    pointer: '',
    found,
    allowed,
    fix: cell === undefined ? `Add a column "${name}".` : 'Correct the cell.',
  };
}

const strangeColumn = (file: string, line: number, variables: readonly Variable[], name: string): Problem => ({
  file,
  line,
  code: 'unknown-column',
  pointer: '',
  found: `there is a column "${name}"`,
  allowed: `the variables of the study are ${variables.map((variable) => variable.name).join(', ')}`,
  fix: 'Take it out, or name a variable after it.',
});

function rowsOf(table: string): Rows {
  switch (path.extname(table).toLowerCase()) {
    case '.ndjson':
    case '.jsonl':
      return ndjsonRows(table);
    case '.csv':
      return csvRows(table);
    case '.parquet':
      return parquetRows(table);
    default:
      throw badCall(
        'unknown-format',
        `"${table}" has another ending`,
        'a table ends in .csv, .ndjson or .parquet',
        'Give it the ending of its format.',
      );
  }
}

/** Bytes of NDJSON read at a time. */
const BYTES = 1 << 18;

async function* ndjsonRows(table: string): Rows {
  const decoder = new StringDecoder('utf8');
  let line = 0;
  let rest = '';
  const rowsIn = (lines: readonly string[]): Row[] => {
    const rows: Row[] = [];
    for (const text of lines) {
      line += 1;
      if (text.length > 1 || text.trim() !== '') rows.push({ line, cells: cellsIn(table, line, text) });
    }
    return rows;
  };
  for await (const bytes of createReadStream(table, { highWaterMark: BYTES })) {
    const lines = (rest + decoder.write(bytes as Buffer)).split('\n');
    rest = lines.pop() ?? '';
    yield rowsIn(lines);
  }
  yield rowsIn([rest + decoder.end()]);
}

function cellsIn(table: string, line: number, text: string): Readonly<Record<string, unknown>> {
  let cells: unknown;
  try {
    cells = JSON.parse(text);
  } catch (error) {
    throw wrongLine(table, line, `the line is no JSON (${(error as Error).message})`);
  }
  if (typeof cells !== 'object' || cells === null || Array.isArray(cells)) throw wrongLine(table, line, 'the line is no object');
  return cells as Readonly<Record<string, unknown>>;
}

const wrongLine = (file: string, line: number, found: string): BadInput =>
  new BadInput([{ file, line, code: 'not-json', pointer: '', found, allowed: 'each line is an object in JSON', fix: 'Correct the line.' }]);

const ROWS_AT_A_TIME = 1024;

async function* csvRows(table: string): Rows {
  const parser = createReadStream(table).pipe(parse({ columns: true, bom: true, skip_empty_lines: true, info: true }));
  try {
    let some: Row[] = [];
    for await (const { record, info } of parser) {
      some.push({ line: info.lines, cells: record });
      if (some.length < ROWS_AT_A_TIME) continue;
      yield some;
      some = [];
    }
    yield some;
  } catch (error) {
    const { lines } = error as { lines?: number };
    if (lines === undefined) throw error;
    throw new BadInput([
      {
        file: table,
        line: lines,
        code: 'not-csv',
        pointer: '',
        found: (error as Error).message,
        allowed: 'every line has as many cells as the first',
        fix: 'Correct the line.',
      },
    ]);
  }
}

async function* parquetRows(table: string): Rows {
  const file = await asyncBufferFromFile(table);
  const metadata = await parquetMetadataAsync(file);
  let rowStart = 0;
  for (const group of metadata.row_groups) {
    const rowEnd = rowStart + Number(group.num_rows);
    const before = rowStart;
    const rows = await parquetReadObjects({ file, metadata, rowStart, rowEnd });
    yield rows.map((cells, at) => ({ line: before + at + 1, cells }));
    rowStart = rowEnd;
  }
}

/** A study whose scenarios come from a table, where one is given. */
export function withGiven(study: CompiledStudy, given: Given | undefined): CompiledStudy {
  if (given === undefined) return study;
  const width = study.variables.length;
  const chunk = new Float64Array(1024 * width);
  const bytes = Buffer.from(chunk.buffer);
  const file = openSync(given.file, 'r');
  let from = -1;
  return {
    ...study,
    scenarios: given.rows,
    draw: (scenario, into) => {
      if (from < 0 || scenario < from || scenario >= from + 1024) {
        from = scenario - (scenario % 1024);
        readSync(file, bytes, 0, bytes.length, from * width * 8);
      }
      into.set(chunk.subarray((scenario - from) * width, (scenario - from + 1) * width));
    },
  };
}
