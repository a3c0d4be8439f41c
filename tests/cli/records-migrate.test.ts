/** `records migrate`, and what reads records of other versions of the schema. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { speciesProblems } from '@commensal/schema';
import { expect, test } from 'vitest';
import { textOf } from '../support/repository.js';
import { commensal, example, file, folder, placesIn, recordsIn, REFUSED } from './command.js';

const DRAFTS = 'packages/schema/tests/fixtures/0.9/records';
const draftText = (id: string): string => textOf(`${DRAFTS}/${id}.species.json`);
const read = (name: string): string => readFileSync(path.join(folder, name), 'utf8');
const draftIn = (place: string, id: string, change: (text: string) => string = (text) => text): string =>
  file(change(draftText(id)), `${place}/${id}.species.json`);

/** Line and column of a text in a file. */
function placeOf(text: string, needle: string): string {
  const lines = text.split('\n');
  const line = lines.findIndex((one) => one.includes(needle));
  return `${line + 1}:${(lines[line] ?? '').indexOf(needle) + 1}`;
}

test('a folder of drafts becomes a folder of records', () => {
  for (const id of ['gramma-loreto', 'pterois-volitans', 'entacmaea-quadricolor']) draftIn('drafts/deep', id);
  const current = recordsIn('drafts', ['blenniidae/ecsenius-bicolor']);
  const { code, out, err } = commensal(['records', 'migrate', current]);
  expect(code).toBe(0);
  expect(out.trimEnd().split('\n').at(-1)).toBe('3 migrated to schema 1.0, 1 already there.');
  expect(out).toContain(`${path.join('drafts', 'deep', 'gramma-loreto.species.json')}: 0.9 to 1.0\n`);
  const files = readdirSync(path.join(folder, 'drafts/deep'));
  expect(files).toHaveLength(3);
  for (const name of files) expect(speciesProblems(JSON.parse(read(`drafts/deep/${name}`)))).toEqual([]);
  // What could not be carried over is told with its place in the draft.
  expect(err).toContain(`gramma-loreto.species.json:${placeOf(draftText('gramma-loreto'), '"along the belly"')}  not-carried`);
  // Again there is nothing to do.
  const before = read('drafts/deep/gramma-loreto.species.json');
  expect(commensal(['records', 'migrate', current])).toEqual({ code: 0, out: '0 migrated to schema 1.0, 4 already there.\n', err: '' });
  expect(read('drafts/deep/gramma-loreto.species.json')).toBe(before);
});

test('a dry run writes nothing', () => {
  const draft = draftIn('dry', 'pterois-volitans');
  const { code, out } = commensal(['records', 'migrate', draft, '--dry-run']);
  expect({ code, out }).toEqual({ code: 0, out: `${draft}: 0.9 to 1.0\n1 would be migrated to schema 1.0, 0 already there.\n` });
  expect(read(draft)).toBe(draftText('pterois-volitans'));
});

test('one record that does not come out right, and none is written', () => {
  const right = draftIn('half', 'pterois-volitans');
  const wrong = draftIn('half', 'gramma-loreto', (text) => text.replace('"evidence": "trade"', '"evidence": "hearsay"'));
  const { code, out, err } = commensal(['records', 'migrate', 'half']);
  expect({ code, out }).toEqual({ code: 1, out: '' });
  expect(placesIn(err).filter((place) => place.endsWith('not-in-list'))).toHaveLength(1);
  expect(err).toContain('Nothing was written.');
  expect(read(right)).toBe(draftText('pterois-volitans'));
  expect(read(wrong)).toContain('hearsay');
  expect(readdirSync(path.join(folder, 'half'))).toHaveLength(2);
});

test('a version that no migration begins at is told, and so are a file that is not JSON and one that is not there', () => {
  const old = draftIn('old', 'pterois-volitans', (text) => text.replace('/schema/0.9/', '/schema/0.2/'));
  expect(commensal(['records', 'migrate', old])).toMatchObject({ code: 1, out: '' });
  expect(commensal(['records', 'migrate', old]).err).toContain('records can be brought here from schema 0.9');
  expect(commensal(['records', 'migrate', file('{', 'no.species.json')]).err).toContain('not-json');
  expect(commensal(['records', 'migrate', 'nowhere'])).toMatchObject(REFUSED);
});

const { residents: _, ...bare } = example();
const wish = file(JSON.stringify({ ...bare, wishes: [{ species: 'gramma-loreto' }] }));

test('records of a later minor version are planned with, and what was left out is told once', () => {
  const plain = recordsIn('plain/own', ['grammatidae/gramma-loreto', 'blenniidae/ecsenius-bicolor']);
  const records = recordsIn('later/own', ['grammatidae/gramma-loreto', 'blenniidae/ecsenius-bicolor']);
  for (const name of ['later/own/grammatidae/gramma-loreto', 'later/own/blenniidae/ecsenius-bicolor']) {
    const text = read(`${name}.species.json`).replace('/schema/1.0/', '/schema/1.3/').replace('"form":', '"moods": ["shy"],\n  "form":');
    writeFileSync(path.join(folder, `${name}.species.json`), text);
  }
  const { code, out, err } = commensal(['plan', wish, '--species', records]);
  expect({ code, out }).toMatchObject({ code: 0, out: commensal(['plan', wish, '--species', plain]).out });
  expect(placesIn(err)).toHaveLength(1);
  expect(placesIn(err)[0]).toMatch(/^later.own.blenniidae.ecsenius-bicolor\.species\.json:\d+:\d+ {2}later-property$/);
  expect(err).toContain('moods is not known to this version of commensal and is left out, and in 1 more place.');
});

test('the check takes neither, with one message each', () => {
  const records = recordsIn('strict', ['grammatidae/gramma-loreto']);
  const name = 'strict/grammatidae/gramma-loreto.species.json';
  writeFileSync(
    path.join(folder, name),
    read(name).replace('/schema/1.0/', '/schema/1.3/').replace('"form":', '"moods": ["shy"],\n  "form":'),
  );
  draftIn('strict', 'pterois-volitans');
  const { code, out } = commensal(['records', 'check', records]);
  expect(code).toBe(1);
  expect(placesIn(out).filter((line) => /-schema/.test(line))).toHaveLength(2);
  expect(out).toContain('later-schema');
  expect(out).toContain('earlier-schema');
  expect(out).not.toContain('unknown-property');
});

test('records of an earlier version are refused with the way to bring them here', () => {
  draftIn('early', 'gramma-loreto');
  const { code, out, err } = commensal(['plan', wish, '--species', 'early']);
  expect({ code, out }).toEqual(REFUSED);
  expect(placesIn(err)).toEqual([`${path.join('early', 'gramma-loreto.species.json')}:2:14  earlier-schema`]);
  expect(err).toContain('commensal records migrate');
  expect(commensal(['records', 'migrate', 'early']).code).toBe(0);
  expect(commensal(['plan', wish, '--species', 'early']).code).toBe(0);
});
