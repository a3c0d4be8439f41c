import { type Catalogue, has, say } from '@commensal/report';
import type { Coverage, CoverageCounts } from '@commensal/schema';
import { STANDINGS } from './coverage.js';

/** What the columns are called. */
export const STANDING_NAMES: Readonly<Record<keyof CoverageCounts, string>> = {
  measured: 'measured',
  derived: 'derived',
  imputed: 'imputed',
  practice: 'practice',
  recalled: 'recalled',
  none: 'known none',
  absent: 'absent',
};

/** What a field is called; one without a label by its path. */
export const fieldLabel = (catalogue: Catalogue, field: string): string =>
  has(catalogue, `field.${field}`) ? say(catalogue, `field.${field}`) : field;

type Row = readonly string[];

const countsOf = (counts: CoverageCounts): Row => STANDINGS.map((standing) => String(counts[standing]));
const HEAD: Row = STANDINGS.map((standing) => STANDING_NAMES[standing]);

const fieldRows = (coverage: Coverage): Row[] => [
  ...coverage.fields.map(({ field, counts }) => [field, ...countsOf(counts)]),
  ['all fields', ...countsOf(coverage.total)],
];

const familyRows = (coverage: Coverage): Row[] =>
  coverage.families.map(({ family, records, counts }) => [family, String(records), ...countsOf(counts)]);

/** Columns wide enough for the widest entry; the first reads from the left, numbers from the right. */
function columns(rows: readonly Row[]): string {
  const widths = (rows[0] ?? []).map((_, at) => Math.max(...rows.map((row) => (row[at] ?? '').length)));
  return rows
    .map((row) => row.map((cell, at) => (at === 0 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0))).join('  '))
    .join('\n');
}

const EXPLAINED =
  'Counted are records. "known none" is a list that is known to be empty; "absent" is what is not known, or does not apply to the species.';

const heading = ({ records, fields, families }: Coverage): string =>
  `${records} ${records === 1 ? 'record' : 'records'} of ${families.length} ${families.length === 1 ? 'family' : 'families'}, ${fields.length} fields that say what they rest on`;

/** Counts by field and by family as columns of plain text. */
export function coverageText(coverage: Coverage): string {
  return [
    heading(coverage),
    columns([['field', ...HEAD], ...fieldRows(coverage)]),
    columns([['family, all its fields', 'records', ...HEAD], ...familyRows(coverage)]),
    EXPLAINED,
  ]
    .join('\n\n')
    .concat('\n');
}

const markdownTable = (rows: readonly Row[]): string => {
  const [head = [], ...body] = rows;
  const line = (cells: Row): string => `| ${cells.join(' | ')} |`;
  return [line(head), `|${head.map((_, at) => (at === 0 ? '---' : '---:')).join('|')}|`, ...body.map(line)].join('\n');
};

/** The same as tables of Markdown, without a title. */
export function coverageMarkdown(coverage: Coverage, catalogue: Catalogue): string {
  const labelled = coverage.fields.map(({ field, counts }) => [`\`${field}\``, fieldLabel(catalogue, field), ...countsOf(counts)]);
  return [
    `${heading(coverage)}.`,
    markdownTable([['field', 'what it is', ...HEAD], ...labelled, ['all fields', '', ...countsOf(coverage.total)]]),
    '## By family, all fields together',
    markdownTable([['family', 'records', ...HEAD], ...familyRows(coverage)]),
    EXPLAINED,
  ]
    .join('\n\n')
    .concat('\n');
}

/** The same as comma-separated values with a header, a line a field and then a line a family. */
export function coverageCsv(coverage: Coverage): string {
  return [
    ['what', 'name', 'records', ...STANDINGS],
    ...coverage.fields.map(({ field, counts }) => ['field', field, String(coverage.records), ...countsOf(counts)]),
    ...familyRows(coverage).map((row) => ['family', ...row]),
  ]
    .map((row) => row.join(','))
    .join('\n')
    .concat('\n');
}
