/** `commensal records fix` as it is built: the form of records and nothing else, each file whole or not at all. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, lstatSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { bundle, commensal, folder, placesIn, REFUSED, unprivileged } from './command.js';
import { inMillimetres, put, putMany, putRecord, sampleRecord, textOfRecord } from './records.js';

const fix = (...args: string[]) => commensal(['records', 'fix', ...args]);
const textIn = (name: string): string => readFileSync(path.join(folder, name), 'utf8');

const right = textOfRecord(sampleRecord());
let places = 0;
const fresh = (): string => {
  places += 1;
  return `fix-${places}`;
};

describe('records fix', () => {
  test('puts the form right, says what, and is done then', () => {
    const place = fresh();
    const name = putRecord(place, 'ecsenius-bicolor', (text) => {
      const spoilt = inMillimetres(text)
        .replace(/\n/g, '\r\n')
        .replace(/("id": [^\r]*\r\n {2})("addedIn": [^\r]*\r\n {2})/, '$2$1');
      expect(spoilt).toContain('"mm"');
      return `\uFEFF${spoilt}`;
    });
    putRecord(place, 'liopropoma-rubre');
    const { code, out, err } = fix(place);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(placesIn(out).map((line) => line.replace(/^.*:(\d+:\d+ )/, '$1'))).toEqual([
      '1:1  spacing',
      '3:3  key-order',
      expect.stringMatching(/^\d+:15 {2}unit-not-canonical$/),
      '1 of 2 records repaired.',
    ]);
    expect(textIn(name)).toBe(right);
    expect(fix(place)).toEqual({ code: 0, out: '0 of 2 records repaired.\n', err: '' });
    expect(commensal(['records', 'check', place, '--strict']).code).toBe(0);
  });

  test('only says so when told to', () => {
    const name = putRecord(fresh(), 'ecsenius-bicolor', (text) => inMillimetres(text).trimEnd());
    const before = textIn(name);
    const { code, out } = fix(name, '--dry-run');
    expect(code).toBe(0);
    expect(out).toMatch(/\n {2}size\.maximum\.unit is "mm"; records are kept in "cm": \d+ mm is [\d.]+ cm\.\n/);
    expect(out).toMatch(/\n\n1 of 1 record would be repaired\.\n$/);
    expect(textIn(name)).toBe(before);
  });

  test('drops a source that stands there twice, which the schema does not take', () => {
    const name = putRecord(fresh(), 'ecsenius-bicolor', (text) => text.replace(/"sources": \[\n( {4}"[^"]+")/, '"sources": [\n$1,\n$1'));
    expect(commensal(['records', 'check', name]).code).toBe(1);
    expect(fix(name).code).toBe(0);
    expect(textIn(name)).toBe(right);
  });

  test('tells of what it cannot repair, leaves it alone, and repairs the rest', () => {
    const place = fresh();
    const spoilt = {
      'not-json': '{"id": ',
      'duplicate-key': right.replace('"addedIn"', '"id": "x", "addedIn"'),
      'not-in-list': right.trimEnd().replace('"unit": "cm"', '"unit": "cubit"'),
      'empty-file': '',
    };
    for (const [code, text] of Object.entries(spoilt)) put(`${place}/${code}.species.json`, text);
    const good = putRecord(place, 'ecsenius-bicolor', (text) => text.trimEnd());
    const { code, out, err } = fix(place);
    expect(code).toBe(1);
    expect(out).toMatch(/\n\n1 of 5 records repaired, 4 left as they were\.\n$/);
    expect(placesIn(err).map((line) => line.split('  ')[1])).toEqual(['duplicate-key', 'empty-file', 'not-in-list', 'not-json']);
    for (const [name, text] of Object.entries(spoilt)) expect(textIn(`${place}/${name}.species.json`)).toBe(text);
    expect(textIn(good)).toBe(right);
  });

  test('repairs a record whose names do not agree: that is no matter of form', () => {
    const name = putRecord(fresh(), 'ecsenius-bicolor', (text) =>
      text.replace('"id": "ecsenius-bicolor"', '"id": "ecsenius-tricolor"').trimEnd(),
    );
    expect(fix(name).code).toBe(0);
    expect(textIn(name)).toBe(right.replace('"id": "ecsenius-bicolor"', '"id": "ecsenius-tricolor"'));
  });

  test('keeps permissions, and a link stays a link', () => {
    const place = fresh();
    const name = putRecord(`${place}-far`, 'ecsenius-bicolor', (text) => text.trimEnd());
    chmodSync(path.join(folder, name), 0o666);
    putRecord(place, 'liopropoma-rubre');
    symlinkSync(path.join('..', name), path.join(folder, place, 'linked.species.json'));
    expect(fix(place).code).toBe(0);
    expect(textIn(name)).toBe(right);
    expect(statSync(path.join(folder, name)).mode & 0o777).toBe(0o666);
    expect(lstatSync(path.join(folder, place, 'linked.species.json')).isSymbolicLink()).toBe(true);
  });

  test('leaves a file as it was where it cannot be written, and goes on', () => {
    const place = fresh();
    // There is no room for a longer name beside it.
    const long = put(`${place}/${'a'.repeat(240)}.species.json`.replace(/a{13}/, ''), right.trimEnd());
    const other = putRecord(place, 'ecsenius-bicolor', (text) => text.trimEnd());
    const { code, out, err } = fix(place);
    expect(code).toBe(3);
    expect(err).toBe(`"${long}" cannot be written (ENAMETOOLONG). It is as it was.\n`);
    expect(out).toMatch(/\n\n1 of 2 records repaired, 1 left as they were\.\n$/);
    expect(textIn(long)).toBe(right.trimEnd());
    expect(textIn(other)).toBe(right);
    expect(readdirSync(path.join(folder, place))).toHaveLength(2);
  });

  test('does not replace what may not be written', () => {
    const name = putRecord(fresh(), 'ecsenius-bicolor', (text) => text.trimEnd());
    chmodSync(path.join(folder, name), 0o444);
    expect(unprivileged(['records', 'fix', name])).toMatchObject({ code: 3, err: expect.stringContaining('(EACCES)') });
    expect(textIn(name)).toBe(right.trimEnd());
  });

  test('only what changed, when told to', () => {
    const place = fresh();
    const names = ['ecsenius-bicolor', 'liopropoma-rubre'].map((id) => putRecord(`${place}/records`, id, (text) => text.trimEnd()));
    const cwd = path.join(folder, place);
    const git = (...args: string[]) => spawnSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@commensal.example', ...args], { cwd });
    git('init', '-q', '-b', 'main');
    git('add', '-A');
    expect(git('commit', '-qm', 'x').status).toBe(0);
    writeFileSync(path.join(folder, names[0] ?? ''), `${right}\n`);
    expect(commensal(['records', 'fix', '--changed'], '', cwd).out).toMatch(/1 of 1 record repaired\.\n$/);
    expect(textIn(names[0] ?? '')).toBe(right);
    expect(textIn(names[1] ?? '')).not.toMatch(/\n$/);
  });

  test('does not take standard input', () => {
    expect(fix('-')).toMatchObject({ ...REFUSED, err: expect.stringMatching(/^not-a-file\n/) });
  });

  test('nor what is not there', () => {
    expect(fix('nowhere')).toMatchObject({ ...REFUSED, err: expect.stringMatching(/^no-such-path\n/) });
    expect(fix()).toMatchObject({ ...REFUSED, err: expect.stringMatching(/^no-records\n/) });
  });

  test('after Ctrl-C every file is whole, repaired or as it was', async () => {
    const place = putMany(fresh(), 3000, (text) => text.replaceAll('\n', '\r\n'));
    const files = readdirSync(path.join(folder, place), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.json'))
      .sort()
      .map((name) => path.join(place, name));
    const before = new Map(files.map((name) => [name, textIn(name)]));
    const child = spawn(process.execPath, [bundle, 'records', 'fix', place], { cwd: folder });
    // Once the first is repaired, work has begun.
    while (textIn(files[0] ?? '') === before.get(files[0] ?? '')) await setTimeout(5);
    child.kill('SIGINT');
    const [code] = await once(child, 'close');
    expect(code).toBe(130);
    const outcomes = files.map((name) => {
      const [was, is] = [before.get(name) ?? '', textIn(name)];
      return is === was ? 'as it was' : is === was.replaceAll('\r\n', '\n') ? 'repaired' : 'broken';
    });
    expect(new Set(outcomes)).toEqual(new Set(['repaired', 'as it was']));
    const after = readdirSync(path.join(folder, place), { recursive: true, encoding: 'utf8' }).filter((name) => name.includes('.part'));
    expect(after).toEqual([]);
  });
});
