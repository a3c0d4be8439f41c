import { PROBLEM_CODES, RECORD_CODES } from '@commensal/records';
import { expect, test } from 'vitest';
import { problemPages } from '../../scripts/problem-pages.mjs';
import { filesUnder, packageFolders, textOf } from '../support/repository.js';

test('every code has a page that says what the list of codes says', async () => {
  const { pages, problems } = await problemPages({ fix: false });
  expect(problems, 'run `npm run docs`').toEqual([]);
  expect(pages).toBeGreaterThan(30);
});

test('every code that the schema of records may give is in the list', () => {
  const examples = ['constraints', 'beyond-the-schema'].flatMap((name): { code: string }[] =>
    JSON.parse(textOf(`packages/schema/examples/species/negative/${name}.json`)),
  );
  const given = new Set(examples.map(({ code }) => code));
  expect(given.size).toBeGreaterThan(15);
  expect([...given].filter((code) => RECORD_CODES[code] === undefined)).toEqual([]);
});

test('every code that a package gives is in the list', () => {
  const sources = packageFolders.flatMap((folder) => filesUnder(`${folder}/src`)).filter((file) => /(?<!\.test|\.d)\.ts$/.test(file));
  const given = new Set(
    sources.flatMap((file) => [...textOf(file).matchAll(/(?:\bcode: |\bbadCall\(\s*)'([a-z0-9-]+)'/g)].map(([, code = '']) => code)),
  );
  expect(given.size).toBeGreaterThan(60);
  expect([...given].filter((code) => PROBLEM_CODES[code] === undefined)).toEqual([]);
});

test('says are one sentence, and all texts end as sentences do', () => {
  for (const [code, { says, matters, repair, exception = 'None.' }] of Object.entries(PROBLEM_CODES)) {
    expect(says, code).toMatch(/^[A-Z`](?:[^.]|\.\S)*\.$/);
    for (const text of [matters, repair, exception]) expect(text, code).toMatch(/^[`A-Z].*\.$/);
  }
});
