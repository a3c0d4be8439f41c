import { createReadStream } from 'node:fs';
import path from 'node:path';
import type { RowSource } from '@commensal/core';
import type { StudyColumn, StudyManifest } from '@commensal/schema';
import { parse } from 'csv-parse';
import { asyncBufferFromFile, parquetMetadataAsync, parquetRead } from 'hyparquet';
import { createInterface } from 'node:readline';
import { badCall, BadInput } from '../failure.js';
import { scenariosOfBlock } from './blocks.js';
import { partName } from './folder.js';

/** The parts of a folder as rows, in the order of scenarios, one part in memory at a time. */
export function partsSource(folder: string, manifest: StudyManifest): RowSource {
  return {
    columns: manifest.columns,
    blocks: async function* (names) {
      const scenario = manifest.columns.find(({ of }) => of === 'scenario') as StudyColumn;
      const wanted = [...names.map((name) => manifest.columns.find((column) => column.name === name) as StudyColumn), scenario];
      for (let block = 0; block < manifest.blocks; block += 1) {
        const file = path.join(folder, partName(block, manifest.format));
        const { from, until } = scenariosOfBlock(block, manifest);
        const columns = await columnsOf(file, manifest, wanted, until - from);
        const strange = columns.pop()?.findIndex((number, row) => number !== from + row) ?? -1;
        if (strange >= 0) throw wrongPart(file, `row ${strange + 1} is not of scenario ${from + strange}`);
        yield columns;
      }
    },
  };
}

async function columnsOf(file: string, { format }: StudyManifest, wanted: readonly StudyColumn[], rows: number): Promise<Float64Array[]> {
  const columns = wanted.map(() => new Float64Array(rows).fill(Number.NaN));
  const readers = wanted.map(readerOf);
  const put = (column: number, row: number, cell: unknown): void => {
    if (row >= rows) throw wrongPart(file, `it has more than ${rows} rows`);
    const value = (readers[column] as (cell: unknown) => number | undefined)(cell);
    if (value === undefined)
      throw wrongPart(file, `row ${row + 1} holds ${JSON.stringify(cell) ?? 'nothing'} in column "${wanted[column]?.name}"`);
    (columns[column] as Float64Array)[row] = value;
  };
  let read = 0;
  try {
    if (format === 'parquet') read = await readParquet(file, wanted, put);
    else {
      for await (const cells of format === 'csv' ? csvRows(file) : ndjsonRows(file)) {
        for (const [column, { name }] of wanted.entries()) put(column, read, (cells as Readonly<Record<string, unknown>>)[name]);
        read += 1;
      }
    }
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw wrongPart(file, `it cannot be read (${(error as Error).message})`);
  }
  if (read !== rows) throw wrongPart(file, `it has ${read} rows, ${rows} belong to it`);
  return columns;
}

async function readParquet(
  file: string,
  wanted: readonly StudyColumn[],
  put: (column: number, row: number, cell: unknown) => void,
): Promise<number> {
  const buffer = await asyncBufferFromFile(file);
  const metadata = await parquetMetadataAsync(buffer);
  const places = new Map(wanted.map(({ name }, at) => [name, at]));
  await parquetRead({
    file: buffer,
    metadata,
    columns: wanted.map(({ name }) => name),
    onChunk: ({ columnName, columnData, rowStart }) => {
      const column = places.get(columnName) as number;
      for (let at = 0; at < columnData.length; at += 1) put(column, rowStart + at, columnData[at]);
    },
  });
  return Number(metadata.num_rows);
}

const csvRows = (file: string): AsyncIterable<unknown> => createReadStream(file).pipe(parse({ columns: true }));

async function* ndjsonRows(file: string): AsyncIterable<unknown> {
  for await (const line of createInterface({ input: createReadStream(file) })) yield JSON.parse(line);
}

/** What a cell says in numbers: NaN where it is empty, undefined where it cannot be in that column. */
function readerOf({ codes }: StudyColumn): (cell: unknown) => number | undefined {
  const isEmpty = (cell: unknown): boolean => cell === null || cell === '';
  if (codes !== undefined) {
    const places = new Map<unknown, number>(codes.map((word, at) => [word, at]));
    return (cell) => (isEmpty(cell) ? Number.NaN : places.get(cell));
  }
  return (cell) => {
    if (typeof cell === 'number') return cell;
    if (isEmpty(cell)) return Number.NaN;
    const value = typeof cell === 'string' || typeof cell === 'bigint' ? Number(cell) : Number.NaN;
    return Number.isNaN(value) ? undefined : value;
  };
}

const wrongPart = (file: string, found: string): BadInput =>
  badCall(
    'wrong-part',
    `"${file}" is no whole part: ${found}`,
    'a part has a row for each of its scenarios',
    'Remove it, and run the study again with --resume.',
  );
