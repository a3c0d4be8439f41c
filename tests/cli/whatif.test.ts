/** Runs of what-if studies: the same bytes however they are split, stopped and resumed; clear words for what cannot run. */
import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { setTimeout as wait } from 'node:timers/promises';
import { studyManifestProblems, studySummaryProblems, type Study } from '@commensal/schema';
import { beforeAll, describe, expect, test } from 'vitest';
import { bundle, commensal, folder, unprivileged } from './command.js';
import { hawkfishStudy } from './whatif-study.js';

const at = (...names: string[]): string => path.join(folder, ...names);
const write = (name: string, value: unknown): string => {
  writeFileSync(at(name), typeof value === 'string' ? value : JSON.stringify(value));
  return name;
};

const study = write('study.json', hawkfishStudy());

/** Names and bytes of what a run has left. */
function filesIn(of: string): Record<string, string> {
  const names = readdirSync(at(of)).sort();
  return Object.fromEntries(names.map((name) => [name, readFileSync(at(of, name)).toString('base64')]));
}

function run(of: string, ...more: string[]): { code: number | null; out: string; err: string } {
  return commensal(['whatif', study, '--out', of, '--workers', '1', ...more]);
}

/** Starts a run and ends it by a signal after a time; whether it was ended by it. */
async function stopped(args: readonly string[], signal: NodeJS.Signals, afterMs: number): Promise<{ code: number | null; err: string }> {
  const child = spawn(process.execPath, [bundle, ...args], { cwd: folder });
  child.stdout.resume();
  let err = '';
  child.stderr.on('data', (data) => {
    err += String(data);
  });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  await wait(afterMs);
  child.kill(signal);
  return { code: await ended, err };
}

/** Small file systems can be made by root alone, and not in every container. */
function canMount(): boolean {
  const place = at('mount-probe');
  mkdirSync(place);
  const isMounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=100k', 'tmpfs', place]).status === 0;
  if (isMounted) spawnSync('umount', [place]);
  return isMounted;
}

let whole: Record<string, string> = {};
beforeAll(() => {
  expect(run('whole').code).toBe(0);
  whole = filesIn('whole');
});

describe('a run', () => {
  test('leaves its parts, what they belong to, and how to read them', () => {
    const names = Object.keys(whole);
    expect(names.filter((name) => name.startsWith('part-'))).toHaveLength(64);
    expect(names.filter((name) => !name.startsWith('part-'))).toEqual(['README.txt', 'manifest.json', 'study.json']);
    expect(studyManifestProblems(JSON.parse(readFileSync(at('whole', 'manifest.json'), 'utf8')))).toEqual([]);
    for (const word of ['pip_cm', 'DuckDB', 'Length of Pip on the day it goes in.'])
      expect(readFileSync(at('whole', 'README.txt'), 'utf8')).toContain(word);
  });

  test('says beforehand what it will be, and --tell stops there', () => {
    const { code, out, err } = commensal(['whatif', study, '--tell']);
    expect([code, out]).toEqual([0, '']);
    for (const words of ['2,048 scenarios of design sobol, seed 20270301.', 'pip_cm: even from 3 to 8 cm', 'missing_rock', 'About '])
      expect(err).toContain(words);
  });

  test.each(['parquet', 'csv', 'ndjson'])('is the same for any number of workers and shards, as %s', (format) => {
    const one = `one-${format}`;
    const many = `many-${format}`;
    expect(run(one, '--format', format).code).toBe(0);
    for (const shard of ['3/3', '1/3', '2/3']) {
      const { code } = commensal(['whatif', study, '--out', many, '--format', format, '--shard', shard, '--workers', '3']);
      expect(code).toBe(0);
    }
    expect(filesIn(many)).toEqual(filesIn(one));
  });

  test('on standard output has the rows of the parts, in their order', () => {
    run('rows', '--format', 'csv');
    const parts = readdirSync(at('rows'))
      .filter((name) => name.startsWith('part-'))
      .sort()
      .map((name) => readFileSync(at('rows', name), 'utf8'));
    const [head = ''] = (parts[0] ?? '').split('\n');
    const rows = parts.map((part) => part.slice(head.length + 1));
    expect(commensal(['whatif', study]).out).toBe(`${head}\n${rows.join('')}`);
    expect(commensal(['whatif', study, '--format', 'ndjson']).out.split('\n')).toHaveLength(2049);
  });

  test('two shards may begin at once in one folder', async () => {
    const child = (shard: string): Promise<number | null> =>
      new Promise((resolve) => {
        spawn(process.execPath, [bundle, 'whatif', study, '--out', 'at-once', '--shard', shard, '--workers', '1'], { cwd: folder }).on(
          'close',
          resolve,
        );
      });
    expect(await Promise.all(['1/2', '2/2'].map(child))).toEqual([0, 0]);
    expect(filesIn('at-once')).toEqual(whole);
  });

  test('a reader that stops early is no error', () => {
    const { status, stdout } = spawnSync('sh', ['-c', '"$0" "$1" whatif "$2" 2>/dev/null | head -n 1', process.execPath, bundle, study], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(status).toBe(0);
    expect(stdout).toMatch(/^scenario,pip_cm,/);
  });
});

describe('a run that is stopped', () => {
  // Long enough to be met at work; parts are small, so that some are done by then.
  const long = (): string => write('long.json', { ...hawkfishStudy(), design: { kind: 'sobol', scenarios: 65_536 } });

  test('by kill -9, several times, ends as if it never was', async () => {
    const args = ['whatif', long(), '--out', 'killed', '--workers', '2', '--resume'];
    // Moments from a generator with a fixed seed (minimal standard of Park & Miller 1988).
    let state = 20270301;
    let killed = 0;
    for (let time = 0; time < 5; time += 1) {
      state = (state * 48_271) % 2_147_483_647;
      const { code } = await stopped(args, 'SIGKILL', 300 + (state % 900));
      if (code === null) killed += 1;
    }
    expect(killed).toBeGreaterThan(0);
    expect(commensal(args).code).toBe(0);
    expect(commensal(['whatif', 'long.json', '--out', 'undisturbed', '--workers', '2']).code).toBe(0);
    expect(filesIn('killed')).toEqual(filesIn('undisturbed'));
  });

  test.each(['SIGINT', 'SIGTERM'] as const)('by %s says how to go on, and leaves nothing half-written', async (signal) => {
    const into = `stopped-${signal}`;
    const args = [
      'whatif',
      write('longer.json', { ...hawkfishStudy(), design: { kind: 'sobol', scenarios: 2_097_152 } }),
      '--out',
      into,
      '--workers',
      '2',
    ];
    const { code, err } = await stopped(args, signal, 2500);
    expect(code).toBe(130);
    expect(err).toContain('--resume goes on from there');
    expect(readdirSync(at(into)).filter((name) => name.endsWith('.aside'))).toEqual([]);
  });

  test('while it prints its rows ends there', async () => {
    const args = [
      'whatif',
      write('longest.json', { ...hawkfishStudy(), design: { kind: 'sobol', scenarios: 2 ** 27 } }),
      '--format',
      'csv',
    ];
    expect((await stopped(args, 'SIGINT', 2500)).code).toBe(130);
  });

  test('by nobody, goes on when nobody reads how far it is', () => {
    const script = `"${process.execPath}" "${bundle}" whatif ${study} --out unread --workers 1 2>&1 | head -1; echo "\${PIPESTATUS[0]}"`;
    const { stdout } = spawnSync('bash', ['-c', script], { cwd: folder, encoding: 'utf8' });
    expect(stdout).toMatch(/\n0\n$/);
    expect(filesIn('unread')).toEqual(whole);
  });

  test('refuses to begin again without --resume', () => {
    const { code, err } = run('whole');
    expect(code).toBe(2);
    expect(err).toMatch(/^parts-there\n/);
    expect(filesIn('whole')).toEqual(whole);
    // Nothing is left to try and to tell.
    expect(run('whole', '--resume')).toMatchObject({ code: 0, err: '64 parts made before are kept; none is left to make.\n' });
    expect(filesIn('whole')).toEqual(whole);
  });
});

describe('a folder of another run is refused, and left as it is', () => {
  test.each([
    ['seed', { ...hawkfishStudy(), seed: 2 }, [], 'the study differs'],
    ['format', hawkfishStudy(), ['--format', 'csv'], 'the format differs'],
  ] as const)('another %s', (_, other, more, words) => {
    const { code, err } = commensal(['whatif', write('other.json', other), '--out', 'whole', '--resume', ...more]);
    expect(code).toBe(2);
    expect(err).toMatch(/^another-study\n/);
    expect(err).toContain(words);
    expect(filesIn('whole')).toEqual(whole);
  });

  test('parts without a manifest', () => {
    cpSync(at('whole'), at('nameless'), { recursive: true });
    rmSync(at('nameless', 'manifest.json'));
    const before = filesIn('nameless');
    expect(run('nameless', '--resume').err).toMatch(/^no-manifest\n.*64 parts/);
    expect(filesIn('nameless')).toEqual(before);
  });

  test('other records', () => {
    const records = at('records');
    cpSync(path.join(import.meta.dirname, '../../packages/species-sample/records'), records, { recursive: true });
    const file =
      readdirSync(records, { recursive: true, encoding: 'utf8' }).find((name) => name.endsWith('paracirrhites-forsteri.species.json')) ??
      '';
    writeFileSync(
      path.join(records, file),
      readFileSync(path.join(records, file), 'utf8').replace('"value": 22.5', '"value": 22.4').replace(/\n$/, '\n'),
    );
    const { code, err } = run('whole', '--resume', '--species', 'records');
    expect(code).toBe(2);
    expect(err).toContain('another-study');
    expect(filesIn('whole')).toEqual(whole);
  });
});

describe('what cannot run says so, and writes nothing', () => {
  const FIGURES = ['growth', 'shape', 'size'];
  const changed = (change: (study: Study) => Study): string => write('wrong.json', JSON.stringify(change(hawkfishStudy()), null, 2));
  const set = (study: Study, index: number, more: object): Study => ({
    ...study,
    vary: (study.vary ?? []).map((variable, at) => (at === index ? { ...variable, ...more } : variable)),
  });
  const setFirst = (study: Study, more: object): Study => set(study, 0, more);
  const setSecond = (study: Study, more: object): Study => set(study, 1, more);
  test.each<[string, (study: Study) => Study, RegExp]>([
    [
      'a place that is not there',
      (one) => setFirst(one, { at: ['/situation/introductions/3/date'] }),
      /^wrong\.json:\d+:\d+ {2}no-such-place\n/,
    ],
    ['a species nobody knows', (one) => setFirst(one, { at: ['/species/no-such/growth/rate'] }), /unknown-species/],
    ['numbers where a word stands', (one) => setFirst(one, { at: ['/situation/residents/0/species'] }), /wrong-place/],
    ['a count that is broken', (one) => setSecond(one, { over: { kind: 'uniform', low: 0, high: 3 } }), /wrong-place\n.*broken numbers/s],
    ['a unit of another kind', (one) => setFirst(one, { unit: 'kg' }), /wrong-place\n.*"kg"/s],
    ['a rule nobody knows', (one) => ({ ...one, outputs: [{ kind: 'outcome', rule: 'gap' }] }), /unknown-rule\n.*gape/s],
    [
      'an animal nobody knows',
      (one) => ({ ...one, outputs: [{ kind: 'outcome', rule: 'gape', subjects: ['halie'] }] }),
      /unknown-animal\n.*hallie/s,
    ],
    [
      'too many variables for its design',
      (one) => ({
        ...one,
        design: { kind: 'sensitivity' as const, points: 4 },
        vary: Array.from({ length: 150 }, (_, n) => ({
          name: `v${n}`,
          at: [`/species/amphiprion-ocellaris/${FIGURES[n % FIGURES.length]}/${n}`] as [string],
          unit: 'cm',
          over: { kind: 'uniform' as const, low: 1, high: 2 },
        })),
      }),
      /too-many-variables/,
    ],
    ['a spread turned round', (one) => setFirst(one, { over: { kind: 'uniform', low: 8, high: 3 } }), /band-order/],
  ])('%s', (_, change, words) => {
    const { code, out, err } = commensal(['whatif', changed(change), '--out', 'never']);
    expect(err).toMatch(words);
    expect([code, out]).toEqual([2, '']);
    expect(existsSync(at('never'))).toBe(false);
  });

  test.each([
    [['--shard', '4/3', '--out', 'never'], 'wrong-shard'],
    [['--shard', 'two', '--out', 'never'], 'wrong-shard'],
    [['--workers', '0', '--out', 'never'], 'whole number from 1'],
    [['--format', 'xlsx'], 'xlsx'],
    [['--format', 'markdown'], 'wrong-format'],
    [['--format', 'parquet'], 'no-folder'],
    [['--resume'], 'no-folder'],
    [['--print-slurm', '4'], 'no-folder'],
    [['--scenarios', 'table.csv'], 'two-designs'],
    [['--merge', 'whole'], 'too-much'],
  ] as const)('%j', (args, words) => {
    const { code, err } = commensal(['whatif', study, ...args]);
    expect(err).toContain(words);
    expect(code).toBe(2);
    expect(existsSync(at('never'))).toBe(false);
  });

  test('no study, and no folder to merge', () => {
    expect(commensal(['whatif']).err).toMatch(/^no-study\n/);
    expect(commensal(['whatif', '--merge', 'records']).err).toMatch(/^no-manifest\n/);
    for (const idle of [['--workers', '2'], ['--resume'], ['--print-slurm', '4'], ['--shard', '1/2']]) {
      const { code, err } = commensal(['whatif', '--merge', 'whole', ...idle]);
      expect(err).toMatch(/^too-much\n/);
      expect(err).toContain(`Leave ${idle[0]} out.`);
      expect(code).toBe(2);
    }
  });

  test('a folder that is a file, or may not be written to', () => {
    expect(commensal(['whatif', study, '--out', study]).err).toMatch(/^not-a-folder\n/);
    mkdirSync(at('closed'));
    chmodSync(at('closed'), 0o555);
    const { code, err } = unprivileged(['whatif', study, '--out', 'closed/in-it']);
    chmodSync(at('closed'), 0o755);
    expect(code).toBe(3);
    expect(err).toContain('Nothing was written');
  });

  const fullDisk = (code: number | null, err: string, of: string): void => {
    expect(err).toContain('the disk is full');
    expect(code).toBe(3);
    expect(readdirSync(at(of)).filter((name) => name.endsWith('.aside'))).toEqual([]);
  };

  test('a disk that is full: what is finished stays, and the run goes on when there is room', () => {
    const preload = pathToFileURL(path.join(import.meta.dirname, 'no-space.mjs')).href;
    const { status, stderr } = spawnSync(
      process.execPath,
      ['--import', preload, bundle, 'whatif', study, '--out', 'full', '--workers', '2'],
      {
        cwd: folder,
        env: { ...process.env, COMMENSAL_SPACE: '100000' },
        encoding: 'utf8',
      },
    );
    fullDisk(status, stderr, 'full');
    expect(readdirSync(at('full')).filter((name) => name.startsWith('part-')).length).toBeGreaterThan(0);
    expect(run('full', '--resume').code).toBe(0);
    expect(filesIn('full')).toEqual(whole);
  });

  test.skipIf(!canMount())('a real one', () => {
    mkdirSync(at('small'), { recursive: true });
    expect(spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=200k', 'tmpfs', at('small')]).status).toBe(0);
    try {
      const { code, err } = run('small/out');
      fullDisk(code, err, 'small/out');
      expect(spawnSync('mount', ['-o', 'remount,size=50m', at('small')]).status).toBe(0);
      expect(run('small/out', '--resume').code).toBe(0);
      expect(filesIn('small/out')).toEqual(whole);
    } finally {
      spawnSync('umount', [at('small')]);
    }
  });
});

describe('the summary', () => {
  const merged = (of: string, format: string): ReturnType<typeof commensal> => commensal(['whatif', '--merge', of, '--format', format]);

  test.each(['text', 'markdown', 'json', 'csv'])('is the same bytes for any format of the parts, as %s', (format) => {
    const [one, ...others] = ['one-parquet', 'many-parquet', 'many-csv', 'many-ndjson'].map((of) => merged(of, format));
    expect(one?.code).toBe(0);
    expect(one?.out.length).toBeGreaterThan(500);
    for (const other of others) expect(other).toEqual(one);
  });

  test('follows its schema', () => {
    expect(studySummaryProblems(JSON.parse(merged('whole', 'json').out))).toEqual([]);
  });

  test('is not made of a run that lacks parts, or has wrong ones', () => {
    const spoilt = (name: string, change: (part: string) => void): string => {
      rmSync(at(name), { recursive: true, force: true });
      cpSync(at('whole'), at(name), { recursive: true });
      change(at(name, 'part-00000003.parquet'));
      return merged(name, 'text').err;
    };
    expect(spoilt('gap', (part) => rmSync(part))).toMatch(/^parts-missing\n {2}1 of 64 parts are not there: 3;/);
    expect(spoilt('short', (part) => truncateSync(part, 500))).toMatch(/^wrong-part\n.*part-00000003/);
    expect(spoilt('foreign', (part) => cpSync(at('one-csv', 'part-00000003.csv'), part))).toMatch(/^wrong-part\n/);
    expect(spoilt('other-rows', (part) => truncateSync(part, 0))).toMatch(/^wrong-part\n/);
    expect(spoilt('twice', (part) => cpSync(at('whole', 'part-00000002.parquet'), part))).toMatch(
      /^wrong-part\n.*row 1 is not of scenario 96/,
    );
    expect(
      spoilt('other-study', () => writeFileSync(at('other-study', 'study.json'), JSON.stringify({ ...hawkfishStudy(), seed: 3 }))),
    ).toMatch(/^another-study\n/);
  });
});

describe('scenarios from a table', () => {
  const given = (): string => write('given.json', { ...hawkfishStudy(), design: { kind: 'given' }, uncertain: [] });
  const rows = [
    [3, 1],
    [5.25, 3],
    [8, 3],
  ] as const;
  const csv = (): string => write('table.csv', `pip_cm,feedings\n${rows.map((row) => row.join(',')).join('\n')}\n`);
  const ndjson = (): string => write('table.ndjson', rows.map(([pip, feedings]) => JSON.stringify({ feedings, pip_cm: pip })).join('\n'));

  test('give the same rows in every format', () => {
    const ofCsv = commensal(['whatif', given(), '--scenarios', csv()]);
    expect(ofCsv.code).toBe(0);
    expect(
      ofCsv.out
        .split('\n')
        .slice(1, 4)
        .map((line) => line.split(',').slice(0, 3)),
    ).toEqual(rows.map((row, index) => [String(index), ...row.map(String)]));
    expect(commensal(['whatif', given(), '--scenarios', ndjson()]).out).toBe(ofCsv.out);
    commensal(['whatif', 'given.json', '--scenarios', 'table.csv', '--out', 'from-table']);
    cpSync(at('from-table', 'part-00000000.parquet'), at('table.parquet'));
    // A part has columns of outputs as well, which a table may not have.
    expect(commensal(['whatif', 'given.json', '--scenarios', 'table.parquet']).err).toContain('unknown-column');
    expect(readdirSync(at('from-table')).filter((name) => name.startsWith('.'))).toEqual([]);
  });

  test.each([
    ['pip_cm\n3\n', /table\.csv:2 {2}missing\n.*"feedings"/s],
    ['pip_cm,feedings,ph\n3,1,8\n', /unknown-column\n.*"ph"/s],
    ['pip_cm,feedings\n3,1\nlong,1\n', /table\.csv:3 {2}wrong-value\n.*"long"/s],
    ['pip_cm,feedings\n3,1.5\n', /wrong-value\n.*whole number/s],
    ['pip_cm,feedings\n3\n', /not-csv/],
    ['pip_cm,feedings\n', /empty-table/],
  ])('%j is refused', (text, words) => {
    const { code, err } = commensal(['whatif', given(), '--scenarios', write('table.csv', text), '--out', 'never']);
    expect(err).toMatch(words);
    expect(code).toBe(2);
  });

  test('of NDJSON are looked at line by line, and a strange name is told once', () => {
    const rows = ['{"pip_cm":3,"feedings":1}', ...Array.from({ length: 3 }, () => '{"pip_cm":3,"feedings":1,"ph":8}')];
    const { code, err } = commensal(['whatif', given(), '--scenarios', write('table.ndjson', `${rows.join('\n')}\n`), '--out', 'never']);
    expect(err).toMatch(/table\.ndjson:2 {2}unknown-column\n.*"ph"/s);
    expect(err.match(/unknown-column/g)).toHaveLength(1);
    expect(code).toBe(2);
  });

  test('are needed by that design', () => {
    expect(commensal(['whatif', given()]).err).toMatch(/^no-table\n/);
    expect(commensal(['whatif', given(), '--scenarios', 'nowhere.csv']).err).toMatch(/^no-such-file\n/);
  });
});
