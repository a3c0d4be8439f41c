/** `records export` and `records import`: what they write, and that they write it whole or not at all. */
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { speciesProblems } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import { expect, test } from 'vitest';
import { commensal, file, folder, placesIn, recordsIn, REFUSED } from './command.js';

const read = (name: string): string => readFileSync(path.join(folder, name), 'utf8');

test('an archive is a new folder with its files', () => {
  const { code, out, err } = commensal(['records', 'export', '--format', 'dwc', '--out', 'archive']);
  expect({ code, out }).toEqual({ code: 0, out: '' });
  expect(readdirSync(path.join(folder, 'archive')).sort()).toEqual([
    'eml.xml',
    'measurementorfact.csv',
    'meta.xml',
    'taxon.csv',
    'vernacularname.csv',
  ]);
  const rows = read('archive/taxon.csv').trimEnd().split('\r\n').length - 1;
  expect(err).toContain(`archive: ${records.length} records; taxon.csv ${rows} rows, `);
  expect(read('archive/eml.xml')).toContain('CC BY 4.0');
  expect(read('archive/eml.xml')).toContain('<pubDate>2026</pubDate>');
});

test('it is never written over, and needs a name', () => {
  mkdirSync(path.join(folder, 'taken'));
  expect(commensal(['records', 'export', '--format', 'dwc', '--out', 'taken'])).toMatchObject(REFUSED);
  expect(readdirSync(path.join(folder, 'taken'))).toEqual([]);
  expect(commensal(['records', 'export', '--format', 'dwc'])).toMatchObject(REFUSED);
  expect(commensal(['records', 'export', '--format', 'dwc', '--out', 'no/such/place'])).toMatchObject({ code: 3, out: '' });
  expect(existsSync(path.join(folder, 'no'))).toBe(false);
  expect(commensal(['records', 'export', '--out', 'x']).code).toBe(2);
});

test('records of a folder say nothing of licence, release or keeper', () => {
  const own = recordsIn('mine', ['grammatidae/gramma-loreto']);
  expect(commensal(['records', 'export', '--format', 'dwc', '--out', 'of-mine', '--species', own]).code).toBe(0);
  const eml = read('of-mine/eml.xml');
  expect(eml).toContain('<title>Species records of the folder mine</title>');
  expect(eml).toContain('No licence is stated with these records');
  expect(eml).not.toMatch(/pubDate|CC BY|Commensal contributors/);
  expect(read('of-mine/taxon.csv').split('\r\n')).toHaveLength(3);
});

test('JSON Lines go to standard output or a file', () => {
  const { code, out, err } = commensal(['records', 'export', '--format', 'jsonl']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const lines = out.trimEnd().split('\n');
  expect(lines).toHaveLength(records.length);
  for (const line of lines) expect(speciesProblems(JSON.parse(line))).toEqual([]);
  expect(commensal(['records', 'export', '--format', 'jsonl', '--out', 'all.jsonl']).out).toBe('');
  expect(read('all.jsonl')).toBe(out);
});

const HEADER = 'scientificName,field,value,low,high,unit,basis,source,lengthType,note';
const table = (...rows: readonly string[]): string => file(`${[HEADER, ...rows].join('\n')}\n`, `table-${rows.length}-${counted()}.csv`);
let tables = 0;
function counted(): number {
  tables += 1;
  return tables;
}
const own = (name: string): string => recordsIn(name, ['grammatidae/gramma-loreto', 'blenniidae/ecsenius-bicolor']);
const GRAMMA = 'grammatidae/gramma-loreto.species.json';

test('measurements are added to the records they name, and the others are not touched', () => {
  const folderOf = own('added');
  const before = read(`added/${GRAMMA}`);
  const bicolor = read('added/blenniidae/ecsenius-bicolor.species.json');
  const rows = table('Gramma loreto,lifeCycle.longevity,,4,7,a,recalled,,,');
  const dry = commensal(['records', 'import', rows, '--records', folderOf, '--dry-run']);
  expect(dry).toMatchObject({ code: 0, err: '' });
  expect(dry.out).toBe('Would be added: 1\n  gramma-loreto lifeCycle.longevity: 4 to 7 a (recalled), line 2\n1 record would be written.\n');
  expect(read(`added/${GRAMMA}`)).toBe(before);
  const { code, out } = commensal(['records', 'import', rows, '--records', folderOf]);
  expect({ code, out }).toEqual({
    code: 0,
    out: 'Added: 1\n  gramma-loreto lifeCycle.longevity: 4 to 7 a (recalled), line 2\n1 record written.\n',
  });
  const after = read(`added/${GRAMMA}`);
  expect(speciesProblems(JSON.parse(after))).toEqual([]);
  // Only the new lines are new: a change that a reviewer can read.
  const old = new Set(before.split('\n'));
  expect(
    after
      .split('\n')
      .filter((line) => !old.has(line))
      .map((line) => line.trim()),
  ).toEqual(['"longevity": {', '"low": 4,', '"high": 7,', '"unit": "a",']);
  expect(read('added/blenniidae/ecsenius-bicolor.species.json')).toBe(bicolor);
  expect(readdirSync(path.join(folder, 'added/grammatidae'))).toHaveLength(1);
  expect(commensal(['records', 'import', rows, '--records', folderOf]).out).toBe('There already: 1\n0 records written.\n');
});

test('a figure that is there stays, and both are told', () => {
  const folderOf = own('conflict');
  const before = read(`conflict/${GRAMMA}`);
  const rows = table('Gramma loreto,size.maximum,9.1,,,cm,measured,price-2022,TL,');
  const { code, out, err } = commensal(['records', 'import', rows, '--records', folderOf]);
  expect({ code, err }).toEqual({ code: 1, err: '' });
  expect(out).toBe(
    'Left as they are, for the record has another figure: 1\n' +
      '  gramma-loreto size.maximum: the record has 8 cm TL (recalled), line 2 has 9.1 cm TL (measured, price-2022)\n' +
      '0 records written.\n',
  );
  expect(read(`conflict/${GRAMMA}`)).toBe(before);
  const replaced = commensal(['records', 'import', rows, '--records', folderOf, '--prefer-measured']);
  expect(replaced.code).toBe(0);
  expect(replaced.out).toBe(
    'Replaced by a measured figure: 1\n' +
      '  gramma-loreto size.maximum: the record has 8 cm TL (recalled), line 2 has 9.1 cm TL (measured, price-2022)\n' +
      '1 record written.\n',
  );
  expect(JSON.parse(read(`conflict/${GRAMMA}`)).size.maximum.value).toBe(9.1);
});

test('a wrong row is told with file, line and column, and its record is left', () => {
  const folderOf = own('wrong');
  const before = read(`wrong/${GRAMMA}`);
  const rows = table(
    'Gramma loreto,lifeCycle.longevity,5,,,a,recalled,,,',
    'Gramma loreto,needs.tankAge,"90,5",,,d,practice,,,',
    'Ecsenius bicolor,lifeCycle.longevity,5,,,a,recalled,,,',
  );
  const { code, out, err } = commensal(['records', 'import', rows, '--records', folderOf]);
  expect(code).toBe(1);
  expect(placesIn(err)).toEqual([`${rows}:3:29  not-a-number`]);
  expect(err).toContain('Write 90.5.');
  expect(out).toContain('1 record written.');
  expect(read(`wrong/${GRAMMA}`)).toBe(before);
  expect(read('wrong/blenniidae/ecsenius-bicolor.species.json')).toContain('"longevity"');
});

test('sources are looked up in the bibliography that is named', () => {
  const folderOf = own('sources');
  const rows = table('Gramma loreto,lifeCycle.longevity,5,,,a,measured,reed-1999,,');
  expect(placesIn(commensal(['records', 'import', rows, '--records', folderOf]).err)).toEqual([`${rows}:2:50  unknown-source`]);
  const bibliography = file(JSON.stringify([{ id: 'reed-1999', type: 'book', title: 'On Tanks' }]), 'own.bibliography.json');
  expect(commensal(['records', 'import', rows, '--records', folderOf, '--bibliography', bibliography]).code).toBe(0);
  expect(JSON.parse(read(`sources/${GRAMMA}`)).sources).toContain('reed-1999');
});

test('a folder and a table that are not there are told', () => {
  const folderOf = own('there');
  expect(commensal(['records', 'import', 'no.csv', '--records', folderOf])).toMatchObject(REFUSED);
  expect(commensal(['records', 'import', table(), '--records', 'nowhere'])).toMatchObject(REFUSED);
  expect(commensal(['records', 'import', table()]).code).toBe(2);
});
