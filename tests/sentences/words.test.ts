/** Every word of the data that a sentence may print has a text. */
import { has } from '@commensal/report';
import { en } from '@commensal/report/en';
import { records } from '@commensal/species-sample';
import { expect, test } from 'vitest';
import { textOf } from '../support/repository.js';
import { checkedCase } from './found.js';
import { coreSources } from './keys.js';
import { fieldsOfRecords } from './recorded-words.js';
import { spoken } from './spoken.js';
import { cases } from './situations.js';

const schema = JSON.parse(textOf('packages/schema/schemas/1.0/species.schema.json'));
const provisions: string[] = schema.$defs.provisions.properties.list.items.enum;

/** Every word that a record can have, the groups of kin among them. */
const recorded = new Set([...enumsIn(schema), ...records.flatMap(({ kinGroup }) => kinGroup?.value ?? [])]);

function enumsIn(part: unknown): string[] {
  if (typeof part !== 'object' || part === null) return [];
  const own = 'enum' in part && Array.isArray(part.enum) ? part.enum.filter((word) => typeof word === 'string') : [];
  return [...own, ...Object.values(part).flatMap(enumsIn)];
}

const sentences: Record<string, string> = JSON.parse(textOf('packages/report/messages/en.json'));

test('every provision has a text', () => {
  expect(provisions.length).toBeGreaterThan(10);
  expect(provisions.filter((word) => !has(en, `word.${word}`))).toEqual([]);
});

/** The words that findings print: under these names the data hold fields of a record or a situation. */
const NAMED = ['missing', 'settle'];

const fields = new Set(
  cases.flatMap((one) => checkedCase(one).findings.flatMap(({ data }) => NAMED.flatMap((name) => data[name]?.keys ?? []))),
);

test('every field that a rule names as missing or doubtful has a text', () => {
  expect(fields.size).toBeGreaterThan(8);
  expect([...fields].filter((field) => !has(en, `field.${field}`))).toEqual([]);
});

test('every field with a text is one that some rule names or reads in a record', () => {
  const texts = Object.keys(sentences).filter((key) => key.startsWith('field.'));
  expect(texts.length).toBeGreaterThan(8);
  const known = new Set([...fields, ...fieldsOfRecords]);
  expect(texts.filter((key) => !known.has(key.slice('field.'.length)))).toEqual([]);
});

test('every word with a text is one that a record can have or that core names', () => {
  const texts = Object.keys(sentences).filter((key) => key.startsWith('word.'));
  const named = (word: string): boolean => recorded.has(word) || coreSources.some((text) => text.includes(`'${word}'`));
  expect(texts.filter((key) => !named(key.slice('word.'.length)))).toEqual([]);
});

test('no sentence prints the name of a field', () => {
  const texts = spoken('metric').map(({ text }) => text);
  expect(texts.length).toBeGreaterThan(1000);
  expect(texts.filter((text) => /[a-z]\.[a-z]+[A-Z]|shape\.|conduct\.|needs\.|size\./.test(text))).toEqual([]);
});
