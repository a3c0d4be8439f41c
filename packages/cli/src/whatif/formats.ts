import type { Column } from '@commensal/core';
import { parquetWriteBuffer } from 'hyparquet-writer';

/** How the rows of a study are written. */
export const ROW_FORMATS = ['parquet', 'csv', 'ndjson'] as const;
export type RowFormat = (typeof ROW_FORMATS)[number];

/** Rows, column after column: row r of column c stands at c times `capacity` plus r. */
export interface Block {
  readonly cells: Float64Array;
  readonly capacity: number;
  readonly rows: number;
}

/** The rows of a block in a format; of CSV with a line of names first. The same rows give the same bytes. */
export function encoded(format: RowFormat, columns: readonly Column[], block: Block): Uint8Array {
  switch (format) {
    case 'parquet':
      return parquetOf(columns, block);
    case 'csv':
      return Buffer.from(`${csvHead(columns)}${csvRows(columns, block)}`);
    case 'ndjson':
      return Buffer.from(ndjsonRows(columns, block));
  }
}

export const csvHead = (columns: readonly Column[]): string => `${columns.map(({ name }) => name).join(',')}\n`;

/** Names and codes hold no comma, quote or sign that a spreadsheet takes for a formula: what would is quoted. */
export function csvRows(columns: readonly Column[], block: Block): string {
  const cells = columns.map((column) => (column.codes === undefined ? undefined : column.codes.map(quoted)));
  return rowsOf(
    columns,
    block,
    (value, at) => (Number.isNaN(value) ? '' : (cells[at]?.[value] ?? String(value))),
    (row) => `${row.join(',')}\n`,
  );
}

const quoted = (word: string): string => (/^[A-Za-z0-9][A-Za-z0-9_.-]*$/.test(word) ? word : `"${word.replaceAll('"', '""')}"`);

export function ndjsonRows(columns: readonly Column[], block: Block): string {
  const words = columns.map(({ codes }) => codes?.map((word) => JSON.stringify(word)));
  const keys = columns.map(({ name }) => JSON.stringify(name));
  return rowsOf(
    columns,
    block,
    (value, at) => `${keys[at]}:${Number.isNaN(value) ? 'null' : (words[at]?.[value] ?? String(value))}`,
    (row) => `{${row.join(',')}}\n`,
  );
}

function rowsOf(
  columns: readonly Column[],
  { cells, capacity, rows }: Block,
  cell: (value: number, column: number) => string,
  line: (row: string[]) => string,
): string {
  const lines: string[] = [];
  for (let row = 0; row < rows; row += 1) {
    lines.push(line(columns.map((_, at) => cell(cells[at * capacity + row] as number, at))));
  }
  return lines.join('');
}

/** Whole numbers as 64 bits where they may be large (scenario numbers), days and counts as 32, words through a dictionary; what is not there is null. */
function parquetOf(columns: readonly Column[], { cells, capacity, rows }: Block): Uint8Array {
  const columnData = columns.map(({ name, kind, codes, of }, at) => {
    const values = cells.subarray(at * capacity, at * capacity + rows);
    const isComplete = !values.some(Number.isNaN);
    const nullable = of === 'output';
    if (codes !== undefined)
      return { name, type: 'STRING' as const, nullable, data: Array.from(values, (value) => (Number.isNaN(value) ? null : codes[value])) };
    if (kind === 'number') return { name, type: 'DOUBLE' as const, nullable, data: isComplete ? values : Array.from(values, orNull) };
    if (of === 'scenario') return { name, type: 'INT64' as const, nullable, data: BigInt64Array.from(values, BigInt) };
    return { name, type: 'INT32' as const, nullable, data: isComplete ? Int32Array.from(values) : Array.from(values, orNull) };
  });
  return new Uint8Array(parquetWriteBuffer({ columnData, statistics: true }));
}

const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);
