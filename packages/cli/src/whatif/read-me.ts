import type { StudyManifest } from '@commensal/schema';

const HOW: Readonly<Record<StudyManifest['format'], readonly (readonly [string, string])[]>> = {
  parquet: [
    ['DuckDB', "select * from 'part-*.parquet' order by scenario;"],
    ['R', 'arrow::open_dataset(".", format = "parquet", factory_options = list(exclude_invalid_files = TRUE))'],
    ['Python', 'pandas.read_parquet(sorted(glob.glob("part-*.parquet")))  # one by one with polars.scan_parquet("part-*.parquet")'],
  ],
  csv: [
    ['DuckDB', "select * from 'part-*.csv' order by scenario;"],
    ['R', 'do.call(rbind, lapply(sort(Sys.glob("part-*.csv")), read.csv))'],
    ['Python', 'pandas.concat(map(pandas.read_csv, sorted(glob.glob("part-*.csv"))))'],
  ],
  ndjson: [
    ['DuckDB', "select * from read_json('part-*.ndjson') order by scenario;"],
    ['R', 'jsonlite::stream_in(file("part-00000000.ndjson"))'],
    ['Python', 'pandas.concat(pandas.read_json(part, lines=True) for part in sorted(glob.glob("part-*.ndjson")))'],
  ],
};

/** What stands in the folder, for whoever finds it: how to read the parts, and what each column holds. */
export function readMe({ title, scenarios, blocks, format, columns }: StudyManifest): string {
  const rows = columns.map(({ name, kind, unit, codes, description }) => {
    const holds =
      codes === undefined
        ? kind === 'day'
          ? 'whole days'
          : `${kind}${unit === undefined || unit === '1' ? '' : `, ${unit}`}`
        : codes.join(' | ');
    return `${name}\n    ${description}\n    ${holds}`;
  });
  return [
    title ?? 'A what-if study',
    '',
    `${scenarios} scenarios in ${blocks} parts, one row a scenario. manifest.json says what they were made with, study.json is the study.`,
    'Some parts may be missing while a run goes on: commensal whatif --merge tells.',
    '',
    ...HOW[format].map(([tool, line]) => `${tool}: ${line}`),
    '',
    'What is not there is null (empty in CSV): a day on which something never happens, a level of what passed.',
    '',
    'Columns',
    '',
    ...rows,
    '',
  ].join('\n');
}
