/** The catalogue holds a sentence for everything that can be said, nothing else, and every sentence gets what it needs. */
import { en } from '@commensal/report/en';
import { expect, test } from 'vitest';
import { textOf } from '../support/repository.js';
import { allRules, keysNamedByCore, saidByReport, templatesOfCore } from './keys.js';
import { spoken } from './spoken.js';
import { unfilled } from './unfilled.js';

const sentences: Record<string, string> = JSON.parse(textOf('packages/report/messages/en.json'));
const keys = Object.keys(sentences);
const sayings = spoken('metric');
const said = new Set(sayings.map(({ key }) => key));

/** What core says, as opposed to words, fields and the frame of a page. */
const FROM_CORE = new RegExp(`^(${[...allRules.map(({ id }) => id), 'order', 'caution', 'change'].join('|')})\\.`);

test('the compiled catalogue is made from this one', () => expect(Object.keys(en.messages).sort()).toEqual([...keys].sort()));

test('every key that core names has a sentence', () => {
  expect(keysNamedByCore.length).toBeGreaterThan(40);
  expect(keysNamedByCore.filter((key) => !keys.includes(key))).toEqual([]);
});

test('every template of keys in core has a sentence', () => {
  expect(templatesOfCore.length).toBeGreaterThan(0);
  expect(templatesOfCore.filter((template) => !keys.some((key) => template.test(key)))).toEqual([]);
});

test('every rule is heard in the situations', () => {
  const heard = allRules.filter(({ id }) => [...said].some((key) => key.startsWith(`${id}.`)));
  expect(heard.map(({ id }) => id)).toEqual(allRules.map(({ id }) => id));
});

test('every sentence on what core finds is said in some situation', () => {
  const isSaid = (key: string): boolean => said.has(key) || partOf(key).some((whole) => said.has(whole));
  expect(keys.filter((key) => FROM_CORE.test(key) && !isSaid(key))).toEqual([]);
});

/** The sentences for several that are made of an item (`gape.mayFit.one`). */
const partOf = (key: string): string[] =>
  key.endsWith('.one') ? ['several', 'severalNotes'].map((ending) => key.replace(/one$/, ending)) : [];

test('every other sentence is named by the text that is built of it', () => {
  const others = keys.filter((key) => !FROM_CORE.test(key) && !/^(word|field)\./.test(key));
  expect(others.length).toBeGreaterThan(30);
  expect(others.filter((key) => !saidByReport(key))).toEqual([]);
});

test('every sentence is given what it prints', () => {
  expect(sayings.length).toBeGreaterThan(1000);
  const gaps = sayings.flatMap(({ key, slots, from }) =>
    unfilled(sentences[key] ?? '', slots).map((slot) => `${key} lacks ${slot} (${from})`),
  );
  expect([...new Set(gaps)]).toEqual([]);
});

test.each([
  ['{a} {b}', { a: 1 }, ['b']],
  ['{a, select, none {} other {{a} {b}}}', {}, []],
  ['{a, select, none {} other {{a} {b}}}', { a: 'x' }, ['b']],
  ['{a, select, x {1} other {2}}', {}, ['a']],
  ['{n, plural, one {{b}} other {}}', { n: 1 }, ['b']],
  ['{n, plural, =0 {{b}} other {#}}', { n: 3 }, []],
])('of "%s" filled with %o, %o is missing', (sentence, slots, missing) => expect(unfilled(sentence, slots)).toEqual(missing));
