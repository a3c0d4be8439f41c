/** `commensal records coverage`, `sources`, `explain`: what reads records and changes nothing. */
import { coverageProblems } from '@commensal/schema';
import { bibliography, records } from '@commensal/species-sample';
import { expect, test } from 'vitest';
import { commensal, file, recordsIn, REFUSED } from './command.js';

const TWO = ['pomacentridae/amphiprion-ocellaris', 'grammatidae/gramma-loreto'];

test('coverage counts the sample, as a valid document', () => {
  const { code, out } = commensal(['records', 'coverage', '--format', 'json']);
  expect(code).toBe(0);
  const coverage = JSON.parse(out);
  expect(coverageProblems(coverage)).toEqual([]);
  expect(coverage.records).toBe(records.length);
});

test('coverage of a folder, of a family, of a form', () => {
  const own = recordsIn('own-coverage', TWO);
  const counted = (...args: string[]): number => JSON.parse(commensal(['records', 'coverage', '--format', 'json', ...args]).out).records;
  expect(counted('--species', own)).toBe(2);
  expect(counted('--species', own, '--family', 'Grammatidae')).toBe(1);
  expect(counted('--form', 'urchin')).toBe(records.filter(({ form }) => form === 'urchin').length);
  const none = commensal(['records', 'coverage', '--species', own, '--family', 'Gramatidae']);
  expect({ code: none.code, out: none.out }).toEqual(REFUSED);
  expect(none.err).toContain('none of the 2 records at hand is of Gramatidae; their families are Grammatidae and Pomacentridae.');
});

test.each([
  ['text', /^\d+ records of \d+ families/],
  ['markdown', /^\d+ records of \d+ families[\s\S]*\n\| field \|/],
  ['csv', /^what,name,records,measured,/],
  ['svg', /^<svg /],
])('coverage as %s', (format, begins) =>
  expect(commensal(['records', 'coverage', '--format', format])).toMatchObject({ code: 0, err: '', out: expect.stringMatching(begins) }),
);

test('sources of the sample all lead somewhere', () => {
  const { code, out } = commensal(['records', 'sources', '--format', 'json']);
  expect(code).toBe(0);
  expect(JSON.parse(out).missing).toEqual([]);
  const csl = JSON.parse(commensal(['records', 'sources', '--format', 'csl']).out);
  expect(csl.length).toBeGreaterThan(3);
  expect(bibliography).toEqual(expect.arrayContaining(csl));
});

test('a key that leads nowhere is told with the nearest, and is a record that is wrong', () => {
  const short = file(
    JSON.stringify(bibliography.map((item) => (item.id === 'price-2022' ? { ...item, id: 'price-2021' } : item))),
    'short.json',
  );
  const { code, out } = commensal(['records', 'sources', '--species', recordsIn('own-sources', TWO), '--bibliography', short]);
  expect(code).toBe(1);
  expect(out).toMatch(/- price-2022: used by .*gramma-loreto.*\. Did you mean price-2021\?/);
});

test('explain takes an id, a file or standard input, and tells the same of each', () => {
  const own = recordsIn('own-explained', TWO);
  const byId = commensal(['records', 'explain', 'gramma-loreto', '--species', own]);
  expect(byId).toMatchObject({ code: 0, err: '' });
  expect(byId.out).toMatch(/^Gramma loreto: what is known of it, and how well\n/);
  expect(commensal(['records', 'explain', `${own}/${TWO[1]}.species.json`, '--species', own]).out).toBe(byId.out);
  const json = JSON.parse(commensal(['records', 'explain', 'gramma-loreto', '--species', own, '--format', 'json']).out);
  expect(json).toMatchObject({ id: 'gramma-loreto', mates: 2 });
  expect(json.standings['shape.bodyDepth']).toBe('measured');
});

test('explain of an id that no record has', () => {
  const { code, out, err } = commensal(['records', 'explain', 'gramma-loretto']);
  expect({ code, out }).toEqual(REFUSED);
  expect(err).toContain('Did you mean gramma-loreto?');
});
