/**
 * What-if studies beside the rules: reading tables of scenarios, writing rows, one worker and two, and how long a general database takes over the question that the kernel answers
 * for five years, asked for one day alone.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { encoded } from '../packages/cli/dist/whatif/formats.js';
import { readGiven } from '../packages/cli/dist/whatif/given.js';
import { medians, per, randomFrom } from './measure.mjs';
import { goalRow, heading, row, times } from './table.mjs';
import { outcomesOf, running, studyFor } from './what-if.mjs';

const ROWS = 50_000;

async function secondsOf(run, rounds = 5) {
  const all = [];
  for (let round = 0; round < rounds; round += 1) {
    const from = performance.now();
    await run();
    all.push((performance.now() - from) / 1000);
  }
  return all.sort((one, other) => one - other)[Math.floor(rounds / 2)];
}

/** Tables of scenarios read into numbers, over JSON.parse of the same lines. */
async function benchReading(folder) {
  heading('Tables of scenarios with 10 numbers each, read into numbers');
  const random = randomFrom(3);
  const variables = Array.from({ length: 10 }, (_, at) => ({
    name: `variable_${at}`,
    at: [],
    unit: 'cm',
    words: undefined,
    whole: undefined,
    isWhole: false,
    isPositive: true,
  }));
  const rows = Array.from({ length: ROWS }, () => variables.map(() => random() * 10));
  const file = (name) => path.join(folder, name);
  const lines = rows.map((values) => JSON.stringify(Object.fromEntries(variables.map(({ name }, at) => [name, values[at]]))));
  writeFileSync(file('table.ndjson'), `${lines.join('\n')}\n`);
  writeFileSync(file('table.csv'), `${variables.map(({ name }) => name).join()}\n${rows.map((values) => values.join()).join('\n')}\n`);
  const cells = Float64Array.from(variables.flatMap((_, at) => rows.map((values) => values[at])));
  const columns = variables.map(({ name }) => ({ name, kind: 'number', unit: 'cm', of: 'variable', description: name }));
  writeFileSync(file('table.parquet'), encoded('parquet', columns, { cells, capacity: ROWS, rows: ROWS }));
  const parsing = await secondsOf(() => lines.map((line) => JSON.parse(line)));
  for (const format of ['ndjson', 'csv', 'parquet']) {
    const reading = await secondsOf(() => readGiven(file(`table.${format}`), variables, file('numbers')));
    if (format === 'ndjson') goalRow('NDJSON over JSON.parse of its lines', reading / parsing, { atMost: 1.5, show: times });
    else row(`${format} over JSON.parse of the same rows as NDJSON`, times(reading / parsing));
    row(`  a scenario`, per(reading, ROWS));
  }
  heading('Rows of 10 numbers and an outcome, put into a format');
  const all = [...columns, { name: 'outcome', kind: 'code', codes: ['passed', 'failed'], of: 'output', description: 'outcome' }];
  const block = { cells: Float64Array.from([...cells, ...rows.map((_, at) => at % 2)]), capacity: ROWS, rows: ROWS };
  for (const format of ['parquet', 'csv', 'ndjson'])
    row(`${format}, a scenario`, per(await secondsOf(() => encoded(format, all, block)), ROWS));
}

/** The same study with one worker and with two; the bytes must be the same. */
function benchWorkers(root, folder) {
  heading('The first worked study through the command line, 500,000 scenarios');
  const study = JSON.parse(readFileSync(path.join(root, 'examples/studies/how-long-must-pip-be.study.json'), 'utf8'));
  writeFileSync(path.join(folder, 'study.json'), JSON.stringify({ ...study, design: { kind: 'sobol', scenarios: 500_000 } }));
  const run = (workers) => {
    const out = path.join(folder, `workers-${workers}`);
    const from = performance.now();
    const { status } = spawnSync(process.execPath, [
      path.join(root, 'packages/cli/dist/commensal.js'),
      'whatif',
      path.join(folder, 'study.json'),
      '--out',
      out,
      '--workers',
      String(workers),
    ]);
    const seconds = (performance.now() - from) / 1000;
    const hash = createHash('sha256');
    for (const name of readdirSync(out).sort()) hash.update(readFileSync(path.join(out, name)));
    rmSync(out, { recursive: true });
    return { seconds, bytes: `${status} ${hash.digest('hex')}` };
  };
  const one = run(1);
  const two = run(2);
  row('one worker over two, start included', times(one.seconds / two.seconds));
  row('the same bytes', one.bytes === two.bytes ? 'yes' : 'NO');
  return one.bytes === two.bytes;
}

/** "Can it swallow it now", as a join of a database on one thread, against the exact verdict over five years. */
async function benchDatabase() {
  heading('12 animals a tank: can one swallow the other');
  const random = randomFrom(9);
  const tanks = 20_000;
  const connection = await (await DuckDBInstance.create()).connect();
  await connection.run('set threads = 1');
  await connection.run('create table animals (scenario integer, id integer, cm double, gape double, depth double)');
  const values = Array.from(
    { length: tanks * 12 },
    (_, at) => `(${Math.floor(at / 12)}, ${at % 12}, ${2 + random() * 20}, ${0.08 + random() * 0.2}, ${0.2 + random() * 0.3})`,
  );
  for (let at = 0; at < values.length; at += 20_000)
    await connection.run(`insert into animals values ${values.slice(at, at + 20_000).join()}`);
  const sql =
    'select count(*) from (select a.scenario from animals a join animals b on a.scenario = b.scenario and a.id <> b.id where a.cm * a.gape >= b.cm * b.depth group by a.scenario)';
  await connection.run(sql);
  const database = await secondsOf(() => connection.run(sql));
  const { ours } = medians({ ours: running([studyFor(12, 11, outcomesOf(['gape']))], 1) });
  row('DuckDB, "now" alone: a tank', per(database, tanks));
  row('the kernel, exact over five years, with doubts: a tank', per(ours));
  row('DuckDB over the kernel', times(database / tanks / ours));
}

/** Returns whether the bytes were the same. */
export async function benchWhatIfFiles(root) {
  const folder = mkdtempSync(path.join(tmpdir(), 'commensal-bench-'));
  try {
    await benchReading(folder);
    await benchDatabase();
    return benchWorkers(root, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
