import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText, readCsv } from './table.js';

const RUNS = Number(process.env.COMMENSAL_RUNS ?? 1000);

/** Cells with all that CSV has to quote. Space around a cell is not kept by the reader, and a row of nothing is no row. */
const cell = fc
  .array(fc.constantFrom('a', 'é', '"', ',', ';', '\n', ' ', '0', '鱼'), { maxLength: 6 })
  .map((letters) => letters.join('').trim());
const table = fc.integer({ min: 1, max: 4 }).chain((width) =>
  fc.record({
    columns: fc.constant(Array.from({ length: width }, (_, index) => `column ${index}`)),
    rows: fc.array(fc.array(cell, { minLength: width, maxLength: width }), { maxLength: 5 }),
  }),
);

describe('CSV by RFC 4180', () => {
  it('is read by another parser as it was written', () => {
    fc.assert(
      fc.property(table, ({ columns, rows }) => {
        const read: unknown = parse(csvText({ columns, rows }), { record_delimiter: '\r\n' });
        expect(read).toEqual([columns, ...rows]);
      }),
      { numRuns: RUNS },
    );
  });

  it('is read back, and each cell is found where it begins', () => {
    fc.assert(
      fc.property(table, ({ columns, rows }) => {
        const text = csvText({ columns, rows });
        const { rows: read, faults } = readCsv(text);
        expect(faults).toEqual([]);
        expect(read.map(({ cells }) => cells)).toEqual([columns, ...rows.filter((cells) => cells.some((one) => one !== ''))]);
        const lines = text.split(/\r\n|\n/);
        for (const { cells, places } of read) {
          expect(places).toHaveLength(cells.length);
          for (const [index, { line, column }] of places.entries()) {
            const from = lines[line - 1]?.slice(column - 1) ?? '';
            const [first = ''] = (cells[index] ?? '').split('\n');
            expect(from.startsWith('"') ? from.slice(1) : from).toSatisfy((rest: string) => rest.startsWith(first.replaceAll('"', '""')));
          }
        }
      }),
      { numRuns: RUNS },
    );
  });

  it('ends every line with CR LF, and quotes only what needs it', () => {
    expect(
      csvText({
        columns: ['a', 'b'],
        rows: [
          ['x y', 'say "when"'],
          ['', '1,5'],
        ],
      }),
    ).toBe('a,b\r\nx y,"say ""when"""\r\n,"1,5"\r\n');
  });
});

describe('reading what people save', () => {
  it.each([
    ['commas', 'a,b\n1,2\n'],
    ['semicolons', 'a;b\n1;2\n'],
    ['tabs', 'a\tb\n1\t2\n'],
    ['CR LF', 'a,b\r\n1,2\r\n'],
    ['CR', 'a,b\r1,2'],
    ['a byte order mark', '\uFEFFa,b\n1,2'],
    ['space around cells', 'a , b\n 1, 2 \n'],
    ['empty lines', 'a,b\n\n1,2\n,\n\n'],
  ])('takes %s', (_, text) => {
    expect(readCsv(text).rows.map(({ cells }) => cells)).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ]);
  });

  it('takes one column, and nothing', () => {
    expect(readCsv('a\n1\n').rows.map(({ cells }) => cells)).toEqual([['a'], ['1']]);
    expect(readCsv('')).toEqual({ rows: [], faults: [] });
  });

  it('counts lines through cells of several lines, and characters in front of a cell', () => {
    const { rows } = readCsv('a,b\n"one\ntwo",3\n4,5\n');
    expect(rows.map(({ places }) => places)).toEqual([
      [
        { line: 1, column: 1 },
        { line: 1, column: 3 },
      ],
      [
        { line: 2, column: 1 },
        { line: 3, column: 6 },
      ],
      [
        { line: 4, column: 1 },
        { line: 4, column: 3 },
      ],
    ]);
  });

  it.each(['a,b\n"1,2\n', 'a,b\n"1"2,3\n'])('says of quotes that go wrong where the row begins: %j', (text) => {
    expect(readCsv(text).faults[0]).toMatchObject({ line: 2, column: 1 });
  });

  it('takes a quote within a cell for an inch', () => {
    expect(readCsv('a,b\n5" long,2\n').rows[1]).toMatchObject({ cells: ['5" long', '2'], places: [{ column: 1 }, { column: 9 }] });
  });
});
