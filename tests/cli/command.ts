/** The command line as it is built, run the way a person runs it. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Situation } from '@commensal/schema';
import { afterAll } from 'vitest';
import { root, textOf } from '../support/repository.js';

export const bundle: string = path.join(root, 'packages/cli/dist/commensal.js');

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A folder of its own for each test file; files are named from there. */
export const folder: string = mkdtempSync(path.join(tmpdir(), 'commensal-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs `commensal` with arguments, in the folder unless told otherwise. */
export function commensal(args: readonly string[], input: string | Buffer = '', cwd: string = folder): Ran {
  const env = { ...process.env, NO_COLOR: '1' };
  const { status, stdout, stderr } = spawnSync(process.execPath, [bundle, ...args], {
    cwd,
    input,
    env,
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  return { code: status, out: stdout, err: stderr };
}

const NOBODY = 65_534;

/**
 * The same, run by somebody whom files can be closed to. Where the tests run as root that is the user nobody, who gets the folder, and a copy of
 * the bundle that he may read.
 */
export function unprivileged(args: readonly string[]): Ran {
  if (process.getuid?.() !== 0) return commensal(args);
  const copy = path.join(folder, 'commensal', 'commensal.js');
  cpSync(path.dirname(bundle), path.dirname(copy), { recursive: true });
  writeFileSync(path.join(path.dirname(copy), 'package.json'), '{ "type": "module" }');
  spawnSync('chown', ['-R', `${NOBODY}:${NOBODY}`, folder]);
  const { status, stdout, stderr } = spawnSync(process.execPath, [copy, ...args], {
    cwd: folder,
    uid: NOBODY,
    gid: NOBODY,
    env: { PATH: process.env.PATH, NO_COLOR: '1' },
    encoding: 'utf8',
  });
  return { code: status, out: stdout, err: stderr };
}

/** The example as it is, to be changed by the test. */
export const example = (): Situation => JSON.parse(textOf('examples/lantern-quay.situation.json'));

let written = 0;

function newName(): string {
  written += 1;
  return `${written}.situation.json`;
}

/** Writes text to a new file in the folder and returns its name. */
export function file(text: string | Buffer, name = newName()): string {
  mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
  writeFileSync(path.join(folder, name), text);
  return name;
}

/** The example with something changed, as a file. */
export function changed(change: (situation: Record<string, never> & Situation) => void): string {
  const situation = example();
  change(situation as Record<string, never> & Situation);
  return file(JSON.stringify(situation, null, 2));
}

/** Copies records of the sample into a folder of records. */
export function recordsIn(name: string, records: readonly string[]): string {
  for (const record of records) {
    cpSync(
      path.join(root, 'packages/species-sample/records', `${record}.species.json`),
      path.join(folder, name, `${record}.species.json`),
      { recursive: true },
    );
  }
  return name;
}

/** What a bad input or a bad call comes to: code 2, nothing on standard output. */
export const REFUSED = { code: 2, out: '' };

/** The lines of standard error that say where and what: `file:line:column  code`. */
export const placesIn = (err: string): string[] => err.split('\n').filter((line) => /^\S.*$/.test(line));
