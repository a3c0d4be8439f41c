/** What a report says beneath its sentences has words in every language, and no label is there for nothing. */
import { check, describeRule, plan, rules, stockOf } from '@commensal/core';
import { type Catalogue, checkText, DEPTHS, figureSlots, has, namesIn, type Told } from '@commensal/report';
import { de } from '@commensal/report/de';
import { en } from '@commensal/report/en';
import { ja } from '@commensal/report/ja';
import { bibliography } from '@commensal/species-sample';
import type { CheckReport, Finding } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { textOf } from '../support/repository.js';
import { reasonsByHand } from './by-hand.js';
import { allRules, coreSources } from './keys.js';
import { cases, planCases } from './situations.js';
import { fieldsOfRecords, partsOf, wordsOf } from './recorded-words.js';

const checks = cases.map((one) => ({ ...one, checked: check(stockOf(one.situation, one.library).stock, allRules) }));
const plans = planCases.map(({ situation, library }) => plan(situation, library, rules));

/** All that is told with figures. */
const told: readonly Told[] = [
  ...checks.flatMap(({ checked }) => checked.findings),
  ...plans.flatMap(({ findings, leftOut, introductions }) => [
    ...findings,
    ...leftOut.flatMap(({ because }) => because),
    ...introductions.flatMap(({ reasons }) => reasons),
  ]),
  ...reasonsByHand,
];

const described = allRules.map(describeRule);

/** What tells one sort of finding from another: numbers in it make no difference to what is printed. */
const shapeOf = ({ message, level, outcome, subjects, data, when }: Finding): string =>
  JSON.stringify([message, level, outcome, subjects.length > 2 ? 3 : subjects.length, when === null, Object.keys(data)]);

const shapes = new Set<string>();

/** The findings of each sort where they are met first, as reports: all of them would take minutes. */
const reports = checks.flatMap(({ name, situation, library, checked }) => {
  const findings = checked.findings.filter((finding) => !shapes.has(shapeOf(finding)) && shapes.add(shapeOf(finding)));
  const report: CheckReport = {
    ...checked,
    $schema: 'https://commensal.example/schema/1.0/check.schema.json',
    findings,
    versions: { code: '1.2.3', schema: '1.0', data: '2026.1' },
  };
  return findings.length === 0 ? [] : [{ name, situation, library, report }];
});

const ruleOf = ({ message }: Told): string => message.split('.')[0] ?? '';

/** Slots by the rule that fills them, as `rule slot`. */
const slots = new Set(told.flatMap((one) => figureSlots(one).map((slot) => `${ruleOf(one)} ${slot}`)));
const thresholds = new Set(allRules.flatMap(({ id, defaults }) => Object.keys(defaults).map((name) => `${id} ${name}`)));

/** The keys that a label may stand under, its rule's own first. */
const keysFor = (kind: string, pair: string): [own: string, common: string] => {
  const [rule = '', name = ''] = pair.split(' ');
  return [`${kind}.${rule}.${name}`, `${kind}.${name}`];
};

const catalogues: readonly Catalogue[] = [en, de, ja];
const keys = Object.keys(JSON.parse(textOf('packages/report/messages/en.json')) as Record<string, string>);

describe.each(catalogues.map((catalogue) => [catalogue.language, catalogue] as const))('in %s', (_, catalogue) => {
  test('every slot that a finding can hold has a label', () => {
    expect(slots.size).toBeGreaterThan(120);
    expect([...slots].filter((pair) => !keysFor('slot', pair).some((key) => has(catalogue, key)))).toEqual([]);
  });

  test('every threshold has a label', () => {
    expect(thresholds.size).toBeGreaterThan(50);
    expect([...thresholds].filter((pair) => !keysFor('threshold', pair).some((key) => has(catalogue, key)))).toEqual([]);
  });

  test('every word that a finding holds has a text, unless it is the name of a family', () => {
    const words = new Map(
      told.flatMap(({ data }) =>
        Object.entries(data).flatMap(([slot, { keys: all = [] }]) => all.map((word) => [`${slot} ${word}`, { slot, word }])),
      ),
    );
    expect(words.size).toBeGreaterThan(100);
    const lacking = [...words.values()].filter(
      ({ slot, word }) =>
        !word.endsWith('idae') && ![`choice.${slot}.${word}`, `word.${word}`, `field.${word}`].some((key) => has(catalogue, key)),
    );
    expect(lacking).toEqual([]);
  });

  test('every field of a record that a rule needs has a text', () => {
    expect(fieldsOfRecords.length).toBeGreaterThan(35);
    expect(fieldsOfRecords.filter((field) => !has(catalogue, `field.${field}`))).toEqual([]);
  });

  test('every word and every part of such a field has a text', () => {
    const parts = fieldsOfRecords.flatMap(partsOf);
    expect(parts.length).toBeGreaterThan(15);
    expect(parts.filter((part) => !has(catalogue, `part.${part}`))).toEqual([]);
    const words = fieldsOfRecords.flatMap((field) => wordsOf(field).map((word) => ({ field, word })));
    expect(words.length).toBeGreaterThan(100);
    const lacking = words.filter(({ field, word }) => !has(catalogue, word === 'none' ? `record.none.${field}` : `word.${word}`));
    expect(lacking).toEqual([]);
  });

  test.each(DEPTHS)('every sort of finding reads whole for the %s, within the page', (depth) => {
    expect(shapes.size).toBeGreaterThan(300);
    for (const { name, situation, library, report } of reports) {
      const voice = { catalogue, units: 'metric', names: namesIn(situation, library, catalogue.language) } as const;
      const text = checkText(voice, situation, report, { depth, grounds: { rules: described, library, bibliography }, notes: true });
      // What records remark stands in quotation marks, as it is.
      expect(text.replaceAll(/[“„「][^”“」]*[”“」]/g, '').match(JUNK) ?? [], name).toEqual([]);
      // A key has no place to break; it stays whole, so that it can be copied.
      expect(
        text.split('\n').filter((line) => widthOf(line) > 88 && !/^\s*\S+$/.test(line)),
        name,
      ).toEqual([]);
    }
  });
});

const JUNK = /.*(?:[{}]|undefined|NaN|\[object|Infinity|[:;] none(?=[;.]|$)|: ;|;\s*;|：／|／／|\u00A0| – \n).*/gm;

/** Columns of a terminal: signs of East Asian scripts take two. */
const widthOf = (line: string): number =>
  [...line].reduce((sum, sign) => sum + (/[\p{Script=Han}\u3000-\u30FF\uFF01-\uFF60]/u.test(sign) ? 2 : 1), 0);

test('the names of an animal count as one slot each', () => {
  expect(figureSlots({ message: 'water.temperature', data: { wantsLow: {}, wantsHigh: {}, missing: {} } })).toEqual([
    'wantsRange',
    'missing',
  ]);
});

describe('no label is there for nothing', () => {
  test.each([
    ['slot', slots],
    ['threshold', thresholds],
  ])('%s', (kind, pairs) => {
    const used = new Set([...pairs].map((pair) => keysFor(kind, pair).find((key) => keys.includes(key))));
    expect(keys.filter((key) => key.startsWith(`${kind}.`) && !used.has(key))).toEqual([]);
  });

  test('choices', () => {
    const filled = new Set([...slots].map((pair) => pair.split(' ')[1]));
    const choices = keys.filter((key) => key.startsWith('choice.')).map((key) => key.split('.'));
    expect(choices.length).toBeGreaterThan(5);
    const named = (word = ''): boolean => coreSources.some((text) => text.includes(`'${word}'`));
    expect(choices.filter(([, slot, word]) => !filled.has(slot ?? '') || !named(word))).toEqual([]);
  });

  test('parts', () => {
    const used = new Set(fieldsOfRecords.flatMap(partsOf).map((part) => `part.${part}`));
    expect(keys.filter((key) => key.startsWith('part.') && !used.has(key))).toEqual([]);
  });
});
