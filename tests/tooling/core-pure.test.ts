/** core runs with nothing beside it: what it imports when it runs is its own files, and each floor only lower ones. */
import path from 'node:path';
import { type Metafile, build } from 'esbuild';
import { expect, test } from 'vitest';
import { filesUnder, root } from '../support/repository.js';
import { FLOORS } from './ban-cases.js';

/** What each file imports at run time, types left out, resolved to paths from the root; packages stay as named. */
async function importsOf(files: readonly string[]): Promise<Metafile['inputs']> {
  const { metafile } = await build({
    entryPoints: [...files],
    absWorkingDir: root,
    bundle: true,
    write: false,
    metafile: true,
    outdir: 'unused',
    format: 'esm',
    packages: 'external',
    logLevel: 'silent',
  });
  return metafile.inputs;
}

const sources = filesUnder('packages/core/src').filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'));
const built = filesUnder('packages/core/dist').filter((file) => file.endsWith('.js'));

test.each([
  ['sources', sources],
  ['built files', built],
])('the %s import nothing but themselves', async (_, files) => {
  expect(files.length).toBeGreaterThan(0);
  const inputs = await importsOf(files);
  const strangers = Object.entries(inputs).flatMap(([file, { imports }]) =>
    imports.filter((one) => one.external === true || !one.path.startsWith('packages/core/')).map((one) => `${file} imports ${one.path}`),
  );
  expect(strangers).toEqual([]);
});

const floorOf = (file: string): number => FLOORS.indexOf(file.split('/')[3] ?? '');

test('no floor imports a higher one, nor the index that gathers them all', async () => {
  const inputs = await importsOf(sources);
  const steps = Object.entries(inputs).flatMap(([file, { imports }]) => imports.map((one) => ({ file, imported: one.path })));
  expect(steps.length).toBeGreaterThan(0);
  const upward = steps.filter(({ file, imported }) => floorOf(file) >= 0 && (floorOf(imported) < 0 || floorOf(imported) > floorOf(file)));
  expect(upward).toEqual([]);
});

test('every file of core stands on a floor', () => {
  const homeless = sources.filter((file) => floorOf(file) < 0 && path.dirname(file) !== 'packages/core/src');
  expect(homeless).toEqual([]);
});
