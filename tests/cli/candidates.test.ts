/** `commensal check --candidates`: which species may join a tank. */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { type Candidates, candidatesProblems } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import { expect, test } from 'vitest';
import { commensal, example, folder } from './command.js';

writeFileSync(path.join(folder, 'quay.json'), JSON.stringify(example()));
const candidates = (...args: string[]): ReturnType<typeof commensal> => commensal(['check', 'quay.json', '--candidates', ...args]);

test('asks about all of them, or about those named, once each', () => {
  const all: Candidates = JSON.parse(candidates('all', '--format', 'json').out);
  expect(candidatesProblems(all)).toEqual([]);
  expect(all.candidates.map(({ species }) => species)).toEqual(records.map(({ id }) => id));
  const some: Candidates = JSON.parse(candidates('gramma-loreto, pterois-volitans,gramma-loreto', '--format', 'json').out);
  expect(some.candidates.map(({ species, mayJoin }) => [species, mayJoin])).toEqual([
    ['gramma-loreto', true],
    ['pterois-volitans', false],
  ]);
  expect(some.candidates).toEqual(
    all.candidates
      .filter(({ species }) => some.candidates.some((one) => one.species === species))
      .sort((one) => (one.species === 'gramma-loreto' ? -1 : 1)),
  );
});

test('shows the cautions of those that may join, and of what is there', () => {
  const { out, code } = candidates('meiacanthus-grammistes');
  expect(code).toBe(0);
  expect(out).toContain('1 of 1 species asked');
  expect(out).toMatch(/venom/i);
  expect(candidates('pterois-volitans').out).not.toMatch(/venom/i);
});

test.each([
  ['gramma-loretto', /unknown-species\n.*"gramma-loretto".*\n {2}Did you mean gramma-loreto \(fairy basslet\)\?/s],
  ['royal gramma,xyzzy', /"royal gramma".*mean gramma-loreto .*"xyzzy"/s],
  ['gramma-loreto,', /unknown-species\n.*"".*\n {2}Name species by their ids/s],
  ['', /It is empty/],
])('%j is refused', (asked, words) => {
  const { code, err, out } = candidates(asked);
  expect([code, out]).toEqual([2, '']);
  expect(err).toMatch(words);
});

test('speaks other languages', () => {
  expect(candidates('gramma-loreto', '--lang', 'de').out).toContain('1 von 1 gefragten Arten');
  expect(candidates('gramma-loreto', '--lang', 'ja').out).toContain('加えられるもの');
});
