/** `commensal records new`: from a scientific name to a record that is valid. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { speciesProblems } from '@commensal/schema';
import { release } from '@commensal/species-sample';
import { expect, test } from 'vitest';
import { commensal, file, folder, placesIn, recordsIn, REFUSED } from './command.js';

// A small library, so that putting the species beside each of it takes no time.
const small = recordsIn('few', ['labridae/halichoeres-chrysus', 'grammatidae/gramma-loreto', 'lysmatidae/lysmata-amboinensis']);
const make = (...args: string[]) => commensal(['records', 'new', ...args, '--species', small]);
const inFolder = (place: string): string => path.join(folder, place);
const written = (place: string) => JSON.parse(readFileSync(inFolder(place), 'utf8'));

const PLACE = 'mine/labridae/halichoeres-melanurus.species.json';

test('a name and a common name are enough where the genus is known', () => {
  const { code, out, err } = make('Halichoeres melanurus', '--english', "Hoeven's wrasse", '--maximum', '12cm', '--out', 'mine');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const record = written(PLACE);
  expect(speciesProblems(record)).toEqual([]);
  expect(record).toMatchObject({
    id: 'halichoeres-melanurus',
    taxon: { family: 'Labridae' },
    form: 'fish',
    size: { maximum: { value: 12, unit: 'cm', lengthType: 'TL', basis: 'recalled' } },
    shape: { bodyDepth: { basis: 'imputed', from: 'family' } },
  });
  expect(record.addedIn > release).toBe(true);
  expect(out.split('\n')[0]?.replaceAll('\\', '/')).toBe(`Wrote ${PLACE}`);
  expect(out).toMatch(/Worth finding out first, by how much hangs on it:\n {2}1\. .*\[\d+ errors?/);
});

test('what is there is never written over', () => {
  const before = file('{}', 'taken/labridae/halichoeres-melanurus.species.json');
  const { code, out, err } = make('Halichoeres melanurus', '--english', 'x', '--out', 'taken');
  expect({ code, out }).toEqual(REFUSED);
  expect(err).toMatch(/^already-there\n/);
  expect(readFileSync(inFolder(before), 'utf8')).toBe('{}');
  expect(readdirSync(path.dirname(inFolder(before)))).toHaveLength(1);
});

test('a dry run prints the record and writes nothing', () => {
  const { code, out } = make('Halichoeres hortulanus', '--english', 'x', '--out', 'dry', '--dry-run');
  expect(code).toBe(0);
  expect(out).toContain('"id": "halichoeres-hortulanus"');
  expect(existsSync(inFolder('dry'))).toBe(false);
});

test('to standard output goes the record alone, what to find out to standard error', () => {
  const { code, out, err } = make('Halichoeres hortulanus', '--english', 'x', '--out', '-');
  expect(code).toBe(0);
  expect(speciesProblems(JSON.parse(out))).toEqual([]);
  expect(err).toContain('Worth finding out first');
});

test('what is missing is told all at once, each with its flag', () => {
  const { code, out, err } = make('Novum primum');
  expect({ code, out }).toEqual(REFUSED);
  expect(placesIn(err)).toEqual(['missing-option', 'missing-option']);
  expect(err).toContain('--family');
  expect(err).toContain('--english');
  const formless = make('Novum primum', '--family', 'Novidae', '--english', 'x');
  expect(formless.err).toContain('Give --form, which is fish, shrimp,');
});

test.each([
  ['a name that is none', ['halichoeres melanurus'], 'wrong-name'],
  ['a form that is none', ['Novum primum', '--family', 'Novidae', '--form', 'whale', '--english', 'x'], 'not-in-list'],
  ['a length without a unit', ['Halichoeres melanurus', '--english', 'x', '--maximum', '12'], 'wrong-length'],
  ['a length type that is none', ['Halichoeres melanurus', '--english', 'x', '--maximum', '12cm', '--length-type', 'XL'], 'not-in-list'],
  ['a source without a length', ['Halichoeres melanurus', '--english', 'x', '--source', 'price-2022'], 'needs-also'],
  ['a source that is none', ['Halichoeres melanurus', '--english', 'x', '--maximum', '12cm', '--source', 'nobody-1999'], 'unknown-source'],
  ['a name without a language', ['Halichoeres melanurus', '--name', 'Lippfisch'], 'wrong-name'],
  ['a number that is none', ['Halichoeres melanurus', '--english', 'x', '--aphia-id', 'abc'], 'wrong-form'],
  ['a species that has a record', ['Gramma loreto', '--english', 'x'], 'already-recorded'],
])('%s is refused with one message, and nothing is written', (_, args, code) => {
  const ran = make(...args, '--out', 'refused');
  expect({ code: ran.code, out: ran.out }).toEqual(REFUSED);
  expect(placesIn(ran.err)).toEqual([code]);
  expect(existsSync(inFolder('refused'))).toBe(false);
});

test('a family that nothing knows is let in, with what it may have been', () => {
  const { code, err } = make('Novum primum', '--family', 'Labridea', '--form', 'fish', '--english', 'x', '--out', 'odd');
  expect(code).toBe(0);
  expect(err).toContain('--family Labridae');
});

test('other animals than fishes get no figures of relatives', () => {
  make('Lysmata debelius', '--english', 'fire shrimp', '--name', 'de:Kardinalsgarnele', '--out', 'shrimps/debelius.species.json');
  const record = written('shrimps/debelius.species.json');
  expect(speciesProblems(record)).toEqual([]);
  expect(record.form).toBe('shrimp');
  expect(record.shape).toBeUndefined();
  expect(record.vernacularNames).toHaveLength(2);
});
