import { candidatesFor, describeRule, libraryOf, rules } from '@commensal/core';
import type { Candidates, Situation } from '@commensal/schema';
import { bibliography, records, standIns } from '@commensal/species-sample';
import { expect, test } from 'vitest';
import { candidatesMarkdown, candidatesText } from './candidates-text.js';
import { en } from './en.js';
import { namesIn } from './names.js';

const library = libraryOf(records, standIns);
const situation: Situation = {
  $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
  title: 'The tank by the stairs',
  date: '2027-03-01',
  keeper: { careTier: 1 },
  tank: { water: { value: 100, unit: 'L' }, length: { value: 80, unit: 'cm' }, width: { value: 35, unit: 'cm' }, cycledOn: '2026-01-01' },
};

const told = (...species: string[]): Candidates => ({
  $schema: 'https://commensal.example/schema/1.0/candidates.schema.json',
  date: situation.date,
  candidates: candidatesFor(situation, library, { species }).map(({ species: id, count, lengthCm, mayJoin, because, doubts = 0 }) => ({
    species: id,
    count,
    ...(lengthCm === undefined ? {} : { length: { value: lengthCm, unit: 'cm' as const } }),
    mayJoin,
    because: [...because],
    doubts,
  })),
  cautions: [],
  versions: { code: '0', schema: '1.0', data: 'none' },
});
const voice = { catalogue: en, units: 'metric' as const, names: namesIn(situation, library, 'en', []) };

test('names who may join with number and length, and the others under what speaks against them', () => {
  const text = candidatesText(voice, situation, told('gramma-loreto', 'naso-lituratus', 'pomacanthus-imperator'));
  expect(text).toContain('The tank by the stairs\nWho may join on 1 March 2027: 1 of 3 species asked\n');
  expect(text).toMatch(/What may join\n-+\n {2}2 × fairy basslet, about 4\.8 cm each\n/);
  expect(text).toMatch(/What stands in the way of the others\n-+\n {2}\S.*\?\n {4}- \S/);
  for (const { vernacularNames } of records.filter(({ id }) => id === 'naso-lituratus' || id === 'pomacanthus-imperator')) {
    expect(text).toContain(`- ${vernacularNames[0]?.name}\n`);
  }
});

test('an adviser reads why, with the numbers', () => {
  const grounds = { rules: rules.map(describeRule), library, bibliography };
  const text = candidatesText(voice, situation, told('naso-lituratus'), { depth: 'adviser', grounds }).replaceAll(/\s+/g, ' ');
  expect(text).toContain('Nothing of what was asked about.');
  expect(text).toMatch(/This tank is 80 cm long/);
});

test('the same words as Markdown', () => {
  const words = (text: string): string[] => text.match(/[\p{L}\p{N}]+/gu) ?? [];
  const some = told('gramma-loreto', 'naso-lituratus');
  expect(words(candidatesMarkdown(voice, situation, some))).toEqual(words(candidatesText(voice, situation, some)));
});
