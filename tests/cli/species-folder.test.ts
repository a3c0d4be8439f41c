/** `--species`: records of one's own in place of the sample. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Plan } from '@commensal/schema';
import { expect, test } from 'vitest';
import { root } from '../support/repository.js';
import { commensal, example, file, placesIn, recordsIn, REFUSED } from './command.js';

const TWO = ['pomacentridae/amphiprion-ocellaris', 'grammatidae/gramma-loreto'];

const { residents: _, ...bare } = example();
const pair = file(JSON.stringify({ ...bare, wishes: [{ species: 'amphiprion-ocellaris', count: [2, 2] }, { species: 'gramma-loreto' }] }));

const recordText = (name: string): string =>
  readFileSync(path.join(root, 'packages/species-sample/records', `${name}.species.json`), 'utf8');

test('a folder of two records is planned with', () => {
  const { code, out, err } = commensal(['plan', pair, '--species', recordsIn('own', TWO), '--format', 'json']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const plan: Plan = JSON.parse(out);
  expect(plan.chosen.map(({ species }) => species)).toEqual(['amphiprion-ocellaris', 'gramma-loreto']);
  expect(plan.versions.data).toBe('own');
});

test('the sample plays no part then', () => {
  const sample = file(JSON.stringify(example()));
  const { code, out, err } = commensal(['plan', sample, '--species', recordsIn('own', TWO)]);
  expect({ code, out }).toEqual(REFUSED);
  expect(err).toContain('none of the 2 records at hand has this id');
});

test('what the records say counts', () => {
  const records = recordsIn('hard', TWO);
  const hard = recordText(TWO[1] ?? '').replace(/"careTier": \{\s*"value": \d/, '"careTier": { "value": 3');
  file(hard, `hard/${TWO[1]}.species.json`);
  const novice = file(JSON.stringify({ ...bare, keeper: { careTier: 1 }, wishes: [{ species: 'gramma-loreto' }] }));
  expect(JSON.parse(commensal(['plan', novice, '--species', records, '--format', 'json']).out).chosen).toEqual([]);
  expect(JSON.parse(commensal(['plan', novice, '--format', 'json']).out).chosen).toHaveLength(1);
});

test('a broken record is told by file, line and column', () => {
  const records = recordsIn('broken', TWO);
  const text = recordText('blenniidae/ecsenius-bicolor').replace('"unit": "cm"', '"unit": "inches"');
  file(text, 'broken/a/ecsenius-bicolor.species.json');
  const line = text.split('\n').findIndex((one) => one.includes('inches')) + 1;
  const { code, out, err } = commensal(['plan', pair, '--species', records]);
  expect({ code, out }).toEqual(REFUSED);
  const [place, ...more] = placesIn(err);
  expect(more).toEqual([]);
  expect(place?.replaceAll('\\', '/')).toMatch(new RegExp(`^broken/a/ecsenius-bicolor\\.species\\.json:${line}:\\d+ {2}not-in-list$`));
});

test('all broken records are told, not only the first', () => {
  for (const name of ['a', 'b']) file('{', `several/${name}.species.json`);
  const { code, err } = commensal(['plan', pair, '--species', 'several']);
  expect(code).toBe(2);
  expect(placesIn(err).map((line) => line.replaceAll('\\', '/'))).toEqual([
    'several/a.species.json:1:1  not-json',
    'several/b.species.json:1:1  not-json',
  ]);
});

test('two records with one id are told with both files', () => {
  const records = recordsIn('twins', TWO);
  file(recordText(TWO[1] ?? ''), 'twins/copy/gramma-loreto.species.json');
  const { code, out, err } = commensal(['check', pair, '--species', records]);
  expect({ code, out }).toEqual(REFUSED);
  expect(err.replaceAll('\\', '/')).toMatch(
    /^twins\/grammatidae\/gramma-loreto\.species\.json:\d+:\d+ {2}duplicate-id\n {2}id is "gramma-loreto", as it is in twins\/copy\/gramma-loreto\.species\.json; /,
  );
});

test('a folder without records', () => {
  file('{}', 'hollow/notes.json');
  const { code, out, err } = commensal(['plan', pair, '--species', 'hollow']);
  expect({ code, out }).toEqual(REFUSED);
  expect(err).toMatch(/^no-records\n {2}"hollow" holds no species records; it must hold files that end in \.species\.json\.\n/);
});

test('a folder that is not there, and a file in its place', () => {
  expect(commensal(['plan', pair, '--species', 'nowhere'])).toMatchObject({
    ...REFUSED,
    err: expect.stringMatching(/^no-such-folder\n {2}"nowhere" does not exist; /),
  });
  expect(commensal(['plan', pair, '--species', pair])).toMatchObject({ ...REFUSED, err: expect.stringMatching(/ is no folder; /) });
});
