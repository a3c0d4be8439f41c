import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { BadInput, Broken } from './failure.js';
import { writeAll, writeFolder } from './write-all.js';

let folder = '';
const at = (name: string): string => path.join(folder, name);
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'commensal-write-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('all files or none', () => {
  it('writes new files and over old ones, and leaves nothing beside them', () => {
    writeFileSync(at('old'), 'before');
    writeAll([
      { file: at('old'), text: 'after' },
      { file: at('new'), text: 'Grün' },
    ]);
    expect(readdirSync(folder).sort()).toEqual(['new', 'old']);
    expect(readFileSync(at('old'), 'utf8')).toBe('after');
    expect(readFileSync(at('new'), 'utf8')).toBe('Grün');
  });

  it('where the last cannot be staged, the others are as they were', () => {
    writeFileSync(at('old'), 'before');
    const files = [
      { file: at('old'), text: 'after' },
      { file: at('no-such-folder/new'), text: 'new' },
    ];
    expect(() => writeAll(files)).toThrow(Broken);
    expect(readdirSync(folder)).toEqual(['old']);
    expect(readFileSync(at('old'), 'utf8')).toBe('before');
  });

  it('where the last cannot be renamed, those renamed before it get their text back', () => {
    writeFileSync(at('old'), 'before');
    // A name that ends in a slash is that of a folder: a file can be written beside it, and not be renamed to it.
    const files = [
      { file: at('old'), text: 'after' },
      { file: at('new'), text: 'new' },
      { file: `${at('late')}/`, text: 'late' },
    ];
    expect(() => writeAll(files)).toThrow(Broken);
    expect(readdirSync(folder)).toEqual(['old']);
    expect(readFileSync(at('old'), 'utf8')).toBe('before');
  });
});

it('keeps permissions, and writes to what a link leads to', () => {
  writeFileSync(at('old'), 'before', { mode: 0o640 });
  symlinkSync(at('old'), at('link'));
  writeAll([{ file: at('link'), text: 'after' }]);
  expect(readFileSync(at('old'), 'utf8')).toBe('after');
  expect(statSync(at('old')).mode & 0o777).toBe(0o640);
  expect(lstatSync(at('link')).isSymbolicLink()).toBe(true);
});

describe('a folder', () => {
  it('appears with all its files', () => {
    writeFolder(at('out'), [
      { file: 'a', text: '1' },
      { file: 'b', text: '2' },
    ]);
    expect(readdirSync(folder)).toEqual(['out']);
    expect(readdirSync(at('out')).sort()).toEqual(['a', 'b']);
  });

  it('does not appear where a file cannot be written', () => {
    const files = [
      { file: 'a', text: '1' },
      { file: 'no/b', text: '2' },
    ];
    expect(() => writeFolder(at('out'), files)).toThrow(Broken);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is never written over or into', () => {
    mkdirSync(at('out'));
    expect(() => writeFolder(at('out'), [{ file: 'a', text: '1' }])).toThrow(BadInput);
    expect(existsSync(at('out/a'))).toBe(false);
  });
});
