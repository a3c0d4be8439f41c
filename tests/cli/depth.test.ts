/** What `--depth` adds to a check and a plan, and what it leaves alone. */
import type { Situation } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { textOf } from '../support/repository.js';
import { changed, commensal, example, file, recordsIn } from './command.js';

const quay = file(JSON.stringify(example()), 'quay.situation.json');

/** A grouper in reach of a basslet, and batches nearer to each other than usual settings would let pass. */
const reach: Partial<Situation> = {
  residents: [
    { id: 'hind', name: 'Marlow', species: 'cephalopholis-miniata', length: { value: 20, unit: 'cm' } },
    { id: 'basslet', name: 'Tansy', species: 'gramma-loreto', length: { value: 4, unit: 'cm' } },
  ],
  settings: { thresholds: { gape: { smallShare: 0.25 }, 'entry-gap': { gapDays: 14 } } },
};
const tank = changed((situation) => Object.assign(situation, reach));

const KEY = 'gape:predator=hind,prey=basslet';
const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

describe.each([
  ['check', tank],
  ['plan', quay],
])('%s', (command, name) => {
  const at = (...options: string[]) => commensal([command, name, ...options]);

  test('is for a keeper unless told otherwise', () => expect(at('--depth', 'keeper')).toEqual(at()));

  test('says for an adviser all that it says for a keeper, and the figures and thresholds', () => {
    const { code, out, err } = at('--depth', 'adviser');
    expect({ code, err }).toEqual({ code: at().code, err: '' });
    const lines = new Set(out.split('\n'));
    expect(
      at()
        .out.split('\n')
        .filter((line) => !lines.has(line)),
    ).toEqual([]);
    expect(out).toContain('\nWhat the rules take as given\n---');
    expect(out).toMatch(/^ {6}- (failed|cannot be told)/m);
    expect(out).not.toMatch(/\nSources\n|weakest\s+basis|gape:/);
  });

  test('for a researcher also keys, bases, records and sources', () => {
    const { code, out, err } = at('--depth', 'researcher');
    expect({ code, err }).toEqual({ code: at().code, err: '' });
    expect(oneLine(out)).toMatch(/weakest basis: [a-z, ]+; key gape:predator=\S+ /);
    expect(out).toContain('\nWhat is on record of the species\n---');
    expect(oneLine(out)).toMatch(/\[shape\.lowerJaw\]: 0\.\d+ of standard length; measured; Price et al\. 2022/);
    expect(oneLine(out)).toMatch(/ Sources -+ .*Price et al\. \(2022\)\. FishShapes v1: .* doi:10\.1002\/ecy\.3829\. /);
    expect(out).not.toMatch(/undefined|NaN|\[object|\u00A0/);
  });

  test('speaks the language and the units that are asked for', () => {
    const { out } = at('--depth', 'researcher', '--lang', 'de', '--units', 'us');
    expect(out).toContain('\nWas die Regeln voraussetzen\n---');
    expect(out).toContain('\nQuellen (nicht übersetzt)\n---');
    expect(out).toMatch(/Länge der Beute: \d+,\d+ in/);
    expect(at('--depth', 'adviser', '--lang', 'ja').out).toContain('\nルールの前提\n---');
  });

  test('holds the same JSON at any depth, and says so', () => {
    const json = at('--format', 'json');
    const { code, out, err } = at('--format', 'json', '--depth', 'researcher');
    expect({ code, out }).toEqual({ code: json.code, out: json.out });
    expect(json.err).toBe('');
    expect(err).toMatch(/^--depth makes no difference to JSON: .+\.\n$/);
  });

  test('tells of depths in its help, and that JSON has none', () => {
    const { out } = commensal([command, '--help']);
    expect(oneLine(out)).toMatch(/--depth <depth> .*JSON holds .* whatever the depth \(choices: "keeper", "adviser", "researcher"\)/);
  });
});

describe('thresholds that the settings changed', () => {
  const adviser = oneLine(commensal(['check', tank, '--depth', 'adviser']).out);
  const researcher = oneLine(commensal(['check', tank, '--depth', 'researcher']).out);

  test('are marked, also where their rule found nothing', () => {
    expect(adviser).toContain('easy mouthful, as a share of what the mouth takes: 0.25 as set for this tank, otherwise 0.33');
    expect(adviser).toContain('- time between batches: 14 days as set for this tank, otherwise 28 days');
  });

  test('have their names for a researcher', () => {
    expect(researcher).toContain('[smallShare]: 0.25 as set for this tank, otherwise 0.33; our choice');
    expect(researcher).toContain(`key ${KEY} `);
  });
});

test('a source that the bibliography of the sample does not hold is named by its key', () => {
  const [hind = '', basslet = ''] = ['epinephelidae/cephalopholis-miniata', 'grammatidae/gramma-loreto'];
  const own = textOf(`packages/species-sample/records/${hind}.species.json`).replaceAll('"price-2022"', '"my-own-notes"');
  recordsIn('elsewhere', [basslet]);
  file(own, `elsewhere/${hind}.species.json`);
  const bare = changed((situation) => Object.assign(situation, reach, { wishes: [] }));
  const { out } = commensal(['check', bare, '--species', 'elsewhere', '--depth', 'researcher']);
  expect(oneLine(out)).toMatch(/\[shape\.lowerJaw\]: 0\.\d+ of standard length; measured; my-own-notes /);
  expect(out.slice(out.indexOf('\nSources\n'))).toContain('\n  my-own-notes\n');
});
