/** What the three commands print, and where. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { checkProblems, planProblems, type Plan, rulesProblems } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { manifestOf, root } from '../support/repository.js';
import { bundle, changed, commensal, example, file, folder } from './command.js';

const quay = file(JSON.stringify(example(), null, 2), 'quay.situation.json');

/** All that is wished for goes in, whether or not it works. */
const crowded = changed((situation) => {
  situation.introductions = (situation.wishes ?? []).map(({ species }, index) => ({
    date: `2027-0${4 + (index % 5)}-01`,
    animals: [{ species }],
  }));
  situation.settings = { accepted: [{ key: 'gape:predator=bosun,prey=gramma-loreto', reason: 'Watched.' }] };
});

describe('the example', () => {
  test('is planned', () => {
    const { code, out, err } = commensal(['plan', quay]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Wren Halloway's 240-litre tank, Lantern Quay reef club\nPlan of 1 March 2027\. Of 20 wishes \d/);
    for (const title of ['What goes in, and when', 'What is left out, and why', 'Cautions']) expect(out).toContain(`\n${title}\n---`);
    expect(out).toMatch(/\nLibrary \d+\.\d+\.\d+, schema 1\.0, species records \d{4}\.\d/);
  });

  test('is checked', () => {
    const { code, out, err } = commensal(['check', quay]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Check of 1 March 2027');
    expect(out).toContain('The 20 wishes are not judged here');
  });

  test('fits the page and is plain text', () => {
    const { out } = commensal(['plan', quay, '--notes']);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(88);
    expect(out).toMatch(/[^\n]\n$/);
    expect([...out].filter((character) => character < ' ' && character !== '\n')).toEqual([]);
    expect(out).not.toMatch(/\u00A0|undefined|NaN|\[object/);
  });
});

describe('JSON', () => {
  test.each([
    ['plan', ['plan', quay], planProblems],
    ['check', ['check', quay], checkProblems],
    ['rules', ['rules'], rulesProblems],
    ['one rule', ['rules', 'water'], rulesProblems],
  ])('of %s follows its schema', (_, args, problemsOf) => {
    const { code, out, err } = commensal([...args, '--format', 'json']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const result: { $schema: string } = JSON.parse(out);
    expect(problemsOf(result)).toEqual([]);
    expect(result.$schema).toMatch(new RegExp(`/${args[0]}\\.schema\\.json$`));
  });

  test('of a check with findings of every sort follows its schema', () => {
    const { code, out } = commensal(['check', crowded, '--format', 'json']);
    expect(code).toBe(1);
    expect(checkProblems(JSON.parse(out))).toEqual([]);
    expect(JSON.parse(out).findings.length).toBeGreaterThan(20);
  });

  test('is metric whatever units are asked for', () => {
    expect(commensal(['plan', quay, '--format', 'json', '--units', 'us']).out).toBe(commensal(['plan', quay, '--format', 'json']).out);
  });
});

describe('Markdown', () => {
  const words = (text: string): string[] =>
    text
      .replaceAll(/^ *(#+|-+) ?/gm, '')
      .replaceAll('\\', '')
      .split(/\s+/);

  test.each([['plan'], ['check']])('of %s holds the words of the text, under headings, and nothing that is no Markdown', (command) => {
    const options = ['--notes', '--depth', 'researcher'];
    const { code, out, err } = commensal([command, quay, '--format', 'markdown', ...options]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^# Wren Halloway's 240-litre tank, Lantern Quay reef club\n\n(Plan|Check) of 1 March 2027/);
    expect(out.match(/^## .+$/gm)?.length).toBeGreaterThan(2);
    expect(out).not.toMatch(/\n{3}|[ \t]\n|\u00A0|undefined|NaN|\[object|<[a-z]/);
    expect(words(out)).toEqual(words(commensal([command, quay, ...options]).out));
  });

  test('speaks the language and the units that are asked for', () => {
    const { out } = commensal(['plan', quay, '--format', 'markdown', '--lang', 'de', '--units', 'us']);
    expect(out).toContain('\n\n## Was einzieht und wann\n\n### ');
    // A day at the start of a line would open a list of numbers.
    expect(out).toMatch(/^### \d+\\\. /m);
    expect(out).toMatch(/\d in je Tier/);
  });

  test('goes to a file as it is', () => {
    expect(commensal(['plan', quay, '--format', 'markdown', '--out', 'plan.md'])).toEqual({ code: 0, out: '', err: '' });
    expect(readFileSync(path.join(folder, 'plan.md'), 'utf8')).toBe(commensal(['plan', quay, '--format', 'markdown']).out);
  });
});

test('the days of a plan stand in their order', () => {
  const lines =
    commensal(['plan', quay])
      .out.split('\nDays to keep\n')[1]
      ?.split('\n\n')[0]
      ?.match(/^ {2}- \d+ \w+ \d{4}/gm) ?? [];
  expect(lines.length).toBeGreaterThan(3);
  const days = lines.map((line) => Date.parse(`${line.slice(4)} UTC`));
  expect(days).toEqual([...days].sort((one, other) => one - other));
});

test('the rules are listed, and one is told whole', () => {
  const list = commensal(['rules']);
  expect(list).toMatchObject({ code: 0, err: '' });
  expect(list.out).toMatch(/\n {2}gape +Can one of these animals swallow the other\?\n/);
  const one = commensal(['rules', 'gape']);
  expect(one).toMatchObject({ code: 0, err: '' });
  expect(one.out).toMatch(/^gape\n\nAsks\n/);
  expect(one.out).toMatch(/Sources\n {2}Mihalitsis, Bellwood \(2017\)\. /);
});

test('the same input gives the same bytes', () => {
  for (const args of [
    ['plan', quay],
    ['check', quay, '--format', 'json'],
    ['rules', '--format', 'json'],
  ]) {
    expect(commensal(args).out).toBe(commensal(args).out);
  }
});

test('standard input is read where a dash stands for the file', () => {
  const piped = commensal(['plan', '-'], JSON.stringify(example()));
  expect(piped).toEqual(commensal(['plan', quay]));
});

describe('--out', () => {
  test('writes the same bytes as standard output, and prints nothing', () => {
    for (const format of ['text', 'json']) {
      expect(commensal(['plan', quay, '--format', format, '--out', 'result'])).toEqual({ code: 0, out: '', err: '' });
      expect(readFileSync(path.join(folder, 'result'), 'utf8')).toBe(commensal(['plan', quay, '--format', format]).out);
    }
  });

  test('replaces an older result', () => {
    file('old', 'older');
    commensal(['rules', '--out', 'older']);
    expect(readFileSync(path.join(folder, 'older'), 'utf8')).toBe(commensal(['rules']).out);
  });

  test('-  is standard output', () => expect(commensal(['rules', '--out', '-'])).toEqual(commensal(['rules'])));

  test('into a folder that is not there is code 3, and nothing is written', () => {
    const before = readdirSync(folder, { recursive: true });
    const { code, out, err } = commensal(['plan', quay, '--out', 'nowhere/result']);
    expect({ code, out }).toEqual({ code: 3, out: '' });
    expect(err).toBe('"nowhere/result" cannot be written (ENOENT). Nothing was written.\n');
    expect(readdirSync(folder, { recursive: true })).toEqual(before);
  });

  test('onto a folder is code 3, and nothing half-written stays', () => {
    file('', 'taken/inside');
    const before = readdirSync(folder, { recursive: true });
    const { code, out, err } = commensal(['plan', quay, '--out', 'taken']);
    expect({ code, out }).toEqual({ code: 3, out: '' });
    expect(err).toMatch(/^"taken" cannot be written \(\w+\)\. Nothing was written\.\n$/);
    expect(readdirSync(folder, { recursive: true })).toEqual(before);
  });

  test('is refused where it would overwrite the situation', () => {
    const own = changed(() => {});
    const text = readFileSync(path.join(folder, own), 'utf8');
    const { code, out, err } = commensal(['plan', own, '--out', `./x/../${own}`]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^same-file\n/);
    expect(readFileSync(path.join(folder, own), 'utf8')).toBe(text);
  });
});

describe('pipes', () => {
  test('a reader that stops early is no error', () => {
    const script = `"${process.execPath}" "${bundle}" plan ${quay} --format json | head -1; echo "\${PIPESTATUS[0]}"`;
    const { stdout, stderr } = spawnSync('bash', ['-c', script], { cwd: folder, encoding: 'utf8' });
    expect({ stdout, stderr }).toEqual({ stdout: '{\n0\n', stderr: '' });
  });

  const twice = () =>
    changed((situation) => {
      situation.introductions = (situation.wishes ?? []).flatMap(({ species }) => [
        { date: '2027-04-01', animals: [{ species }] },
        { date: '2027-05-01', animals: [{ id: `${species}-again`, species }] },
      ]);
    });
  const throughFullPipe = (...args: string[]) => {
    const script = path.join(root, 'tests/cli/full-pipe.mjs');
    return spawnSync(process.execPath, [script, ...args], { cwd: folder, encoding: 'utf8', maxBuffer: 2 ** 26 });
  };

  test('a pipe that takes no more for a moment gets every byte once', () => {
    const args = ['check', twice(), '--format', 'json'];
    const whole = commensal(args);
    // More than a pipe holds, or nothing would have to wait.
    expect(whole.out.length).toBeGreaterThan(2 * 65_536);
    const { status, stdout, stderr } = throughFullPipe(process.execPath, bundle, ...args);
    expect({ code: status, out: stdout, err: stderr }).toEqual(whole);
  });

  test('a reader that leaves a full pipe is no error either', () => {
    const { status, stderr } = throughFullPipe('leave', process.execPath, bundle, 'check', twice(), '--format', 'json');
    expect({ code: status, err: stderr }).toEqual({ code: commensal(['check', twice(), '--format', 'json']).code, err: '' });
  });
});

describe('--units us', () => {
  const { code, out } = commensal(['plan', quay, '--units', 'us', '--notes']);

  test('prints inches, gallons, degrees Fahrenheit and American dates', () => {
    expect(code).toBe(0);
    expect(out).toContain('Plan of March 1, 2027.');
    expect(out).toMatch(/\d in long/);
    expect(out).toMatch(/\d gal of water/);
    expect(out).toMatch(/\d°F/);
  });

  test('leaves nothing metric', () => expect(out).not.toMatch(/\d (cm|mm|L|kg)\b|°C/));

  test('a situation in US units gives the same plan', () => {
    const inUs = changed(({ tank }) => {
      tank.length = { value: 120 / 2.54, unit: '[in_i]' };
      tank.temperature = { low: 76.1, high: 78.8, unit: '[degF]' };
    });
    const plain = ({ chosen }: Plan) => chosen;
    expect(plain(JSON.parse(commensal(['plan', inUs, '--format', 'json']).out))).toEqual(
      plain(JSON.parse(commensal(['plan', quay, '--format', 'json']).out)),
    );
  });
});

describe('the help', () => {
  test('of the program names every command', () => {
    const { code, out, err } = commensal(['--help']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const command of ['check', 'plan', 'rules']) expect(out).toMatch(new RegExp(`\\n {2}${command} \\[options\\]`));
  });

  test.each(['check', 'plan'])('of %s names every option', (command) => {
    const { code, out } = commensal([command, '--help']);
    expect(code).toBe(0);
    for (const option of ['species', 'format', 'out', 'units', 'as-of', 'strict', 'notes']) expect(out).toContain(`--${option}`);
  });

  test('the version is that of the package', () => {
    expect(commensal(['--version'])).toEqual({ code: 0, out: `${manifestOf('packages/cli').version}\n`, err: '' });
  });
});

test('the folder of the repository plays no part', () => {
  expect(folder.startsWith(root)).toBe(false);
});
