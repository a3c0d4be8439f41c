/**
 * All rules on the tanks of an invented club, with the species of the sample: every finding is listed. With COMMENSAL_UPDATE=1 the lists
 * are written anew, for the difference to be read; cases reasoned by hand never are.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { check, libraryOf, rules, stockOf } from '@commensal/core';
import { type Situation, situationProblems } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import { describe, expect, it, test } from 'vitest';
import { inWords } from './compare.js';

const folder = path.join(path.dirname(fileURLToPath(import.meta.url)), 'club');
const names = readdirSync(folder)
  .filter((file) => file.endsWith('.situation.json'))
  .map((file) => file.replace('.situation.json', ''));

const library = libraryOf(records, standIns);
const update = process.env.COMMENSAL_UPDATE === '1';

test('where changes are judged no list is written', () => expect(update && process.env.CI !== undefined).toBe(false));

test('the club has four tanks or more, and a list of findings for each', () => {
  expect(names.length).toBeGreaterThanOrEqual(4);
  const lists = readdirSync(folder).filter((file) => file.endsWith('.expected.json'));
  expect(lists).toEqual(names.map((name) => `${name}.expected.json`));
});

describe.each(names)('the tank of %s', (name) => {
  const situation: Situation = JSON.parse(readFileSync(path.join(folder, `${name}.situation.json`), 'utf8'));
  const list = path.join(folder, `${name}.expected.json`);

  it('is a situation, and all that is found in it is listed', () => {
    expect(situationProblems(situation)).toEqual([]);
    const { stock, problems } = stockOf(situation, library);
    expect(problems).toEqual([]);
    const { findings, summary } = check(stock, rules);
    const counts = Object.entries(summary.rules).map(([rule, { passed, inapplicable }]) => [
      rule,
      `${passed} passed, ${inapplicable} inapplicable`,
    ]);
    const found = { findings: findings.map(inWords), rules: Object.fromEntries(counts) };
    if (update) writeFileSync(list, `${JSON.stringify(found, null, 2)}\n`);
    expect(existsSync(list), `${name}.expected.json; COMMENSAL_UPDATE=1 writes it`).toBe(true);
    expect(found).toEqual(JSON.parse(readFileSync(list, 'utf8')));
    expect(findings.length).toBeGreaterThan(0);
  });
});
