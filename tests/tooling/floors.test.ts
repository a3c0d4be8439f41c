/** The import floors and the bans of the pure packages, as the linter enforces them: each really refuses, and says why. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root, textOf } from '../support/repository.js';
import { banCases, goodCases } from './ban-cases.js';

/** A ban as biome.json states it; `folders` is where it holds. */
interface Ban {
  rule: string;
  name: string;
  message: string;
  folders: readonly string[];
}

interface Override {
  includes: string[];
  linter: {
    rules: {
      style: Record<
        string,
        'off' | { options: { patterns?: { group: string[]; message: string }[]; deniedGlobals?: Record<string, string> } }
      >;
    };
  };
}

const config = JSON.parse(textOf('biome.json'));

const foldersOf = (includes: readonly string[]): string[] =>
  includes.filter((glob) => !glob.startsWith('!')).map((glob) => glob.replace(/\/\*\*$/, ''));

function bansOfOverride({ includes, linter }: Override): Ban[] {
  const folders = foldersOf(includes);
  return Object.entries(linter.rules.style).flatMap(([rule, setting]) =>
    setting === 'off'
      ? []
      : [
          ...(setting.options.patterns ?? []).map(({ group, message }) => ({ rule, name: group.join(' '), message, folders })),
          ...Object.entries(setting.options.deniedGlobals ?? {}).map(([name, message]) => ({ rule, name, message, folders })),
        ],
  );
}

const bansOfPlugin = (plugin: { path: string; includes: string[] }): Ban[] =>
  [...textOf(plugin.path).matchAll(/message = "([^"]+)"/g)].map((match) => ({
    rule: 'plugin',
    name: plugin.path,
    message: match[1] ?? '',
    folders: foldersOf(plugin.includes),
  }));

const bans: Ban[] = [...config.overrides.flatMap(bansOfOverride), ...config.plugins.flatMap(bansOfPlugin)];

const fileOf = (kind: string, folder: string, index: number): string => `${folder}/${kind}-${index}.ts`;

/** What the linter says of each file, by path: the text of its complaints. */
function complaintsIn(folder: string): Map<string, string> {
  const biome = path.join(root, 'node_modules/@biomejs/biome/bin/biome');
  const result = spawnSync(process.execPath, [biome, 'lint', '--colors=off', '--max-diagnostics=none', '.'], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  const complaints = new Map<string, string>();
  let file = '';
  for (const line of `${result.stdout}\n${result.stderr}`.split('\n')) {
    // A complaint opens with its place and its rule, ruled off to the end of the line.
    const opening = /^(\S+?\.ts)(?::\d+:\d+)? .*━/.exec(line);
    if (opening?.[1] !== undefined) file = opening[1];
    if (file !== '') complaints.set(file, `${complaints.get(file) ?? ''}${line}\n`);
  }
  return complaints;
}

let sandbox = '';
let complaints = new Map<string, string>();

beforeAll(() => {
  // The layout of the repository in miniature, so that no bad snippet ever lies in the real one.
  sandbox = mkdtempSync(path.join(tmpdir(), 'commensal-floors-'));
  for (const name of ['biome.json', '.gitignore', 'lint']) cpSync(path.join(root, name), path.join(sandbox, name), { recursive: true });
  const write = (kind: string) => (snippet: { folder: string; code: string }, index: number) => {
    mkdirSync(path.join(sandbox, snippet.folder), { recursive: true });
    writeFileSync(path.join(sandbox, fileOf(kind, snippet.folder, index)), snippet.code);
  };
  banCases.forEach(write('bad'));
  goodCases.forEach(write('good'));
  complaints = complaintsIn(sandbox);
});

afterAll(() => rmSync(sandbox, { recursive: true, force: true }));

const badOnes = banCases.map((banCase, index) => ({ ...banCase, file: fileOf('bad', banCase.folder, index) }));

/** The reasons, each once: the cases of one reason are one test. */
const reasons = [...new Set(badOnes.map(({ says }) => says))];

describe('the linter refuses', () => {
  test.each(reasons)('%s', (reason) => {
    for (const { file, code } of badOnes.filter(({ says }) => says === reason)) {
      expect(complaints.get(file) ?? 'nothing', `${file}\n${code}`).toContain(` ${reason}`);
    }
  });
});

test('the linter lets the look-alikes of what is banned pass', () => {
  goodCases.forEach(({ folder, code }, index) => {
    const file = fileOf('good', folder, index);
    expect(complaints.get(file), `${file}\n${code}`).toBeUndefined();
  });
});

describe('the bans of biome.json', () => {
  test('are not empty, and neither are the cases', () => {
    expect(bans.length).toBeGreaterThan(20);
    expect(banCases.length).toBeGreaterThan(bans.length);
    expect(goodCases.length).toBeGreaterThan(0);
  });

  // Settings of overlapping overrides replace each other whole: a ban counts only where a snippet in its own folder met it.
  test.each(bans)('$rule in $folders, $name: says why and has a case', ({ message, folders }) => {
    expect(message).toMatch(/[:;,] .{20,}\.$/);
    for (const folder of folders) {
      const met = badOnes.filter((bad) => `${bad.folder}/`.startsWith(`${folder}/`) && complaints.get(bad.file)?.includes(message));
      expect(
        met.map(({ says }) => says),
        `no case in ${folder} for: ${message}`,
      ).not.toEqual([]);
    }
  });

  test('are in files that the sandbox holds as well', () => {
    for (const { path: plugin } of config.plugins) expect(readFileSync(path.join(sandbox, plugin), 'utf8')).toBe(textOf(plugin));
  });
});
