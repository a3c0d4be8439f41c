/** The parts of a study as DuckDB reads them, a reader and a reckoner of others. */
import path from 'node:path';
import { writeFileSync } from 'node:fs';
import { DuckDBInstance } from '@duckdb/node-api';
import type { StudySummaryDocument } from '@commensal/schema';
import { beforeAll, describe, expect, test } from 'vitest';
import { commensal, folder } from './command.js';
import { hawkfishStudy } from './whatif-study.js';

const FORMATS = ['parquet', 'csv', 'ndjson'] as const;
const partsOf = (format: string): string =>
  `${format === 'ndjson' ? 'read_json' : `read_${format}`}('${path.join(folder, format, `part-*.${format}`)}')`;

let ask: (sql: string) => Promise<readonly (readonly unknown[])[]>;
beforeAll(async () => {
  writeFileSync(path.join(folder, 'study.json'), JSON.stringify(hawkfishStudy()));
  for (const format of FORMATS) expect(commensal(['whatif', 'study.json', '--out', format, '--format', format]).code).toBe(0);
  const connection = await (await DuckDBInstance.create()).connect();
  ask = async (sql) => (await connection.runAndReadAll(sql)).getRowsJson();
});

test('every format holds the same values and the same gaps', async () => {
  const columns =
    'scenario, pip_cm, feedings, gape_hallie_pip_outcome, gape_hallie_pip_level, gape_hallie_pip_error_first, missing_rock, linf_paracirrhites_forsteri';
  const [parquet, csv, ndjson] = await Promise.all(
    FORMATS.map((format) => ask(`select ${columns} from ${partsOf(format)} order by scenario`)),
  );
  expect(parquet).toHaveLength(2048);
  // JSON of whole numbers of 64 bits is text.
  const plain = (rows: readonly (readonly unknown[])[] | undefined): unknown =>
    rows?.map((row) => row.map((cell) => (typeof cell === 'string' && /^\d+$/.test(cell) ? Number(cell) : cell)));
  expect(plain(csv)).toEqual(plain(parquet));
  expect(plain(ndjson)).toEqual(plain(parquet));
  const gaps = (await ask(`select count(*) - count(gape_hallie_pip_error_first) from ${partsOf('parquet')}`))[0]?.[0];
  expect(Number(gaps)).toBeGreaterThan(0);
});

describe('what it reckons is what the summary says', () => {
  let summary: StudySummaryDocument;
  beforeAll(() => {
    summary = JSON.parse(commensal(['whatif', '--merge', 'parquet', '--format', 'json']).out);
  });
  const output = (name: string): StudySummaryDocument['outputs'][number] => {
    const found = summary.outputs.find(({ column }) => column === name);
    if (found === undefined) throw new Error(`no column ${name}`);
    return found;
  };

  test('counts of words', async () => {
    const rows = await ask(`select gape_hallie_pip_outcome, count(*) from ${partsOf('parquet')} group by 1 order by 1`);
    const told = output('gape_hallie_pip_outcome').codes?.map(({ code, count }) => [code, count]);
    expect(rows.map(([code, count]) => [code, Number(count)])).toEqual(
      [...(told ?? [])].sort(([one], [other]) => (String(one) < String(other) ? -1 : 1)),
    );
    expect(rows.length).toBeGreaterThan(1);
  });

  test('mean, standard deviation, ends and quantiles of days', async () => {
    const day = 'gape_hallie_pip_error_first';
    const { told, mean = 0, standardDeviation = 0, least, greatest, quantiles = [] } = output(day);
    const places = quantiles.map(({ at }) => at);
    expect(places).toHaveLength(7);
    const [row = []] = await ask(
      `select count(${day}), avg(${day}), stddev_samp(${day}), min(${day}), max(${day}), ${places.map((place) => `quantile_cont(${day}, ${place})`).join(', ')} from ${partsOf('parquet')}`,
    );
    const [count, average, deviation, first, last, ...found] = row.map(Number);
    expect([told?.count, least, greatest]).toEqual([count, first, last]);
    // Both add up some thousand numbers, each in its own way.
    expect(Math.abs(mean / (average ?? 0) - 1)).toBeLessThan(1e-12);
    expect(Math.abs(standardDeviation / (deviation ?? 0) - 1)).toBeLessThan(1e-12);
    for (const [index, { value }] of quantiles.entries()) expect(Math.abs(value - (found[index] ?? Number.NaN))).toBeLessThan(1e-9);
  });

  test('how often it fails along a variable', async () => {
    const rows = await ask(
      `select feedings, count(*), count(*) filter (gape_hallie_pip_outcome = 'failed') from ${partsOf('parquet')} group by 1 order by 1`,
    );
    const along = output('gape_hallie_pip_outcome').by.find(({ variable }) => variable === 'feedings');
    expect(along?.groups.map(({ value, scenarios, counted }) => [value, scenarios, counted?.count])).toEqual(
      rows.map((row) => row.map(Number)),
    );
  });
});
