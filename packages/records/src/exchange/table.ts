import Papa from 'papaparse';

/** A table as it is written to a file: the names of its columns, and rows with a text for each. */
export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/**
 * A table as CSV by RFC 4180: a header, commas, quotes where they are needed, lines that end in CR LF.
 *
 * @example
 * csvText({ columns: ['name'], rows: [['say "when"']] }); // 'name\r\n"say ""when"""\r\n'
 */
export function csvText({ columns, rows }: Table): string {
  return `${Papa.unparse([columns, ...rows] as string[][], { newline: '\r\n' })}\r\n`;
}

/** A place in a text: line and column, from 1. */
export interface CellPlace {
  readonly line: number;
  readonly column: number;
}

/** A row as it was read: its cells, and where each of them begins. */
export interface ReadRow {
  readonly cells: readonly string[];
  readonly places: readonly CellPlace[];
}

/** What came of reading CSV: its rows, the header first, or where its quotes go wrong. */
export interface ReadTable {
  readonly rows: readonly ReadRow[];
  readonly faults: readonly (CellPlace & { readonly found: string })[];
}

/** What stands between cells: in the header, whose names hold none of these, whichever is there most often. */
function delimiterOf(text: string): string {
  const [header = ''] = text.trimStart().split('\n');
  const times = (character: string): number => header.split(character).length;
  return [';', '\t'].reduce((most, other) => (times(other) > times(most) ? other : most), ',');
}

/** Where each cell of each row begins; the parser keeps no places. A quote opens a cell only at its beginning. */
function placesOf(text: string, delimiter: string): CellPlace[][] {
  const rows: CellPlace[][] = [[{ line: 1, column: 1 }]];
  let quoted = false;
  // A cell begins here, or a quote that may be half of a doubled one has just closed.
  let opens = true;
  let line = 1;
  let column = 1;
  for (const character of text) {
    column += 1;
    const isQuote: boolean = character === '"' && (quoted || opens);
    opens = isQuote && quoted;
    if (isQuote) quoted = !quoted;
    if (character === '\n') {
      line += 1;
      column = 1;
      if (!quoted) rows.push([{ line, column }]);
    } else if (character === delimiter && !quoted) {
      rows.at(-1)?.push({ line, column });
    }
    if (!quoted && (character === '\n' || character === delimiter)) opens = true;
  }
  return rows;
}

/**
 * Reads CSV by RFC 4180, with commas, semicolons or tabs, whichever it has. Empty lines are passed over, and the space around cells.
 *
 * @example
 * readCsv('a,b\n1,2\n').rows[1]?.cells; // ['1', '2']
 */
export function readCsv(text: string): ReadTable {
  const lines = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const delimiter = delimiterOf(lines);
  const { data, errors } = Papa.parse<string[]>(lines, { newline: '\n', delimiter });
  const places = placesOf(lines, delimiter);
  const rows = data.map((cells, index) => ({ cells: cells.map((cell) => cell.trim()), places: places[index] ?? [] }));
  const faults = errors.map(({ row = 0, message }) => ({ ...(rows[row]?.places[0] ?? { line: 1, column: 1 }), found: message }));
  return { rows: rows.filter(({ cells }) => cells.some((cell) => cell !== '')), faults };
}
