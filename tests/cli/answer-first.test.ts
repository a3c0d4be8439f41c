/** A plan on the terminal begins with what goes in, before it is worked out why the rest is left out. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';
import { root } from '../support/repository.js';
import { bundle, commensal, example, folder } from './command.js';

const quay = path.join(folder, 'quay.json');
writeFileSync(quay, JSON.stringify(example()));

/** What each write to standard output held. */
function writesOf(args: readonly string[]): string[] {
  const log = path.join(folder, 'writes.jsonl');
  writeFileSync(log, '');
  const preload = pathToFileURL(path.join(root, 'tests/cli/count-writes.mjs')).href;
  const { status, stdout } = spawnSync(process.execPath, ['--import', preload, bundle, ...args], {
    cwd: folder,
    env: { ...process.env, NO_COLOR: '1', COMMENSAL_WRITES: log },
    encoding: 'utf8',
  });
  expect([status, stdout]).toEqual([0, '']);
  return readFileSync(log, 'utf8')
    .trim()
    .split('\n')
    .map((line): string => JSON.parse(line));
}

test.each(['text', 'markdown'])('as %s in two writes that make the whole', (format) => {
  const writes = writesOf(['plan', quay, '--format', format]);
  expect(writes).toHaveLength(2);
  const [first, rest] = writes as [string, string];
  expect(first).toContain('What goes in, and when');
  expect(first).toContain('Days to keep');
  expect(first).not.toContain('What is left out');
  expect(rest).toContain('What is left out, and why');
  expect(commensal(['plan', quay, '--format', format]).out).toBe(first + rest);
  // A file gets it whole, by other functions.
  commensal(['plan', quay, '--format', format, '--out', 'whole.txt']);
  expect(readFileSync(path.join(folder, 'whole.txt'), 'utf8')).toBe(first + rest);
});

test('JSON comes in one', () => {
  expect(writesOf(['plan', quay, '--format', 'json'])).toHaveLength(1);
});

test('where nothing can be chosen the reasons are the answer, in one', () => {
  const impossible = {
    ...example(),
    wishes: [
      { species: 'pterois-volitans', must: true },
      { species: 'gramma-loreto', must: true },
    ],
    settings: { off: ['swimming-room'] },
  };
  const { code, out } = commensal(['plan', '-'], JSON.stringify(impossible));
  expect(code).toBe(1);
  expect(out).toContain('What stands in the way');
  expect(out).not.toContain('What goes in, and when');
});

test('a reader that has left gets no more, and that is no error', () => {
  const { status, stderr } = spawnSync('sh', ['-c', '"$0" "$1" plan "$2" | head -c 1 > /dev/null', process.execPath, bundle, quay], {
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([0, '']);
});
