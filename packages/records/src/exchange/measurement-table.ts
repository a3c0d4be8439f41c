import { type Bibliography, didYouMean, listWords, type Problem, valueWords } from '@commensal/schema';
import { QUALIFIERS } from './qualifiers.js';
import { readCsv, type ReadRow } from './table.js';

/** A number with a unit as it stands in a record. */
export type Figure = Readonly<Record<string, string | number>>;

const NUMBERS: readonly string[] = ['value', 'low', 'high'];

/** The columns that make a figure, in the order in which records hold them. */
const FIGURE_COLUMNS: readonly string[] = [...NUMBERS, ...QUALIFIERS];
const COLUMNS: readonly string[] = ['id', 'scientificName', 'field', ...FIGURE_COLUMNS];

/** Decimals as JSON writes them: a comma may stand for a point or for thousands, and nobody can tell which was meant. */
const NUMBER = /^-?\d+(\.\d+)?([eE][-+]?\d+)?$/;

interface Header {
  readonly index: ReadonlyMap<string, number>;
  readonly problems: readonly Problem[];
}

/** What is wrong, without its place. */
interface Found {
  readonly code: string;
  readonly found: string;
  readonly allowed: string;
  readonly fix: string;
}

function headerOf(row: ReadRow, file: string): Header {
  const at = (index: number, problem: Found): Problem => ({
    pointer: '',
    file,
    ...(row.places[index] ?? { line: 1, column: 1 }),
    ...problem,
  });
  const index = new Map<string, number>();
  const problems: Problem[] = [];
  for (const [place, name] of row.cells.entries()) {
    if (!COLUMNS.includes(name)) {
      problems.push(
        at(place, {
          code: 'unknown-column',
          found: `a column is called ${valueWords(name)}`,
          allowed: `columns are ${listWords(COLUMNS, 'and')}`,
          fix: didYouMean(name, COLUMNS, 'Take it out, or give its content to the column "note".'),
        }),
      );
    } else if (index.has(name)) {
      problems.push(
        at(place, {
          code: 'duplicate-column',
          found: `two columns are called "${name}"`,
          allowed: 'each may be there once',
          fix: 'Keep one.',
        }),
      );
    } else index.set(name, place);
  }
  // A name that is a slip of the pen would be missing as well, and that is one mistake.
  if (problems.length === 0) {
    for (const names of [['id', 'scientificName'], ['field'], ['unit'], ['basis'], NUMBERS]) {
      if (names.some((name) => index.has(name))) continue;
      const wanted = listWords(names.map((name) => `"${name}"`));
      problems.push(
        at(0, { code: 'missing-column', found: `no column is called ${wanted}`, allowed: 'each row needs one', fix: `Add ${wanted}.` }),
      );
    }
  }
  return { index, problems };
}

/** A row with its cells by the names of their columns; empty cells are not there. */
export interface Row {
  readonly line: number;
  readonly cells: ReadonlyMap<string, string>;
  /** What is wrong with the row as one of its table. */
  readonly problems: readonly Problem[];
  /** A problem at the cell of a column, or at the row where it has no such column. */
  problem(column: string, problem: Found): Problem;
}

function rowOf({ cells, places }: ReadRow, index: ReadonlyMap<string, number>, width: number, file: string): Row {
  const first = places[0] ?? { line: 1, column: 1 };
  const problem = (column: string, found: Found): Problem => ({
    pointer: '',
    file,
    ...(places[index.get(column) ?? 0] ?? first),
    ...found,
  });
  const tooMany: Found = {
    code: 'too-many-cells',
    found: `the row has ${cells.length} cells`,
    allowed: `the header has ${width}`,
    fix: 'Put quotes around cells that hold the character between cells.',
  };
  return {
    line: first.line,
    cells: new Map(
      [...index].flatMap(([name, place]) => (cells[place] === undefined || cells[place] === '' ? [] : [[name, cells[place]]])),
    ),
    problems: cells.length > width ? [problem('field', tooMany)] : [],
    problem,
  };
}

/** The rows of a table of measurements by the names of its columns; none where its quotes or its header are wrong. */
export function measurementRows(text: string, file: string): { readonly rows: readonly Row[]; readonly problems: readonly Problem[] } {
  const { rows, faults } = readCsv(text);
  if (faults.length > 0) {
    const problems = faults.map(({ line, column, found }) => ({
      code: 'bad-quotes',
      pointer: '',
      file,
      line,
      column,
      found: `the quotes do not close as they should (${found})`,
      allowed: 'a cell in quotes ends with one, and a quote in it is written twice',
      fix: 'Look for a quote too many or too few.',
    }));
    return { rows: [], problems };
  }
  const [first, ...rest] = rows;
  const none = (found: string, fix: string): Problem => ({
    code: 'no-rows',
    pointer: '',
    file,
    line: 1,
    column: 1,
    found,
    allowed: 'below its header each row is a measurement',
    fix,
  });
  if (first === undefined) return { rows: [], problems: [none('the table is empty', 'Fill it, or name another file.')] };
  const { index, problems } = headerOf(first, file);
  if (problems.length > 0) return { rows: [], problems };
  if (rest.length === 0) return { rows: [], problems: [none('the table has a header and no rows', 'Add rows.')] };
  return { rows: rest.map((row) => rowOf(row, index, first.cells.length, file)), problems: [] };
}

/** The figure of a row, and what is wrong with its numbers and its source. */
export function figureOf(row: Row, bibliography: Bibliography): { readonly figure: Figure; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const entries = FIGURE_COLUMNS.flatMap((column): [string, string | number][] => {
    const cell = row.cells.get(column);
    if (cell === undefined) return [];
    if (!NUMBERS.includes(column)) return [[column, cell]];
    if (NUMBER.test(cell)) return [[column, Number(cell)]];
    problems.push(
      row.problem(column, {
        code: 'not-a-number',
        found: `${column} is ${valueWords(cell)}`,
        allowed: 'it must be a number with a point for its decimals, and nothing else',
        fix: /^-?\d+,\d+$/.test(cell) ? `Write ${cell.replace(',', '.')}.` : 'Write the number alone; units have a column of their own.',
      }),
    );
    return [];
  });
  const source = row.cells.get('source');
  if (source !== undefined && !bibliography.some(({ id }) => id === source)) {
    problems.push(
      row.problem('source', {
        code: 'unknown-source',
        found: `source is ${valueWords(source)}`,
        allowed: 'it must be the key of an entry in the bibliography',
        fix: didYouMean(
          source,
          bibliography.map(({ id }) => id),
          'Add the source to the bibliography first.',
        ),
      }),
    );
  }
  return { figure: Object.fromEntries(entries), problems };
}
