import type { CheckReport } from '@commensal/schema';
import { expect, test } from 'vitest';
import { findingOf, metric, nothing, situation, versions } from '../tests/support/club.js';
import { checkText } from './check-text.js';

const clear: CheckReport = {
  $schema: 'https://commensal.example/schema/1.0/check.schema.json',
  date: '2027-03-01',
  findings: [],
  summary: nothing,
  cautions: [],
  staleAcceptances: [],
  versions,
};

const END = `
Failed: 0 serious, 0 to decide, 0 good to know. Cannot be told: 0 that would be serious,
0 to decide, 0 good to know.
Library 1.2.3, schema 1.0, species records 2026.1. Figures differ in how sure they are;
run again with --depth researcher to read what each finding rests on.
`;

test('a check that found nothing says so', () => {
  expect(checkText(metric, situation, clear)).toBe(`The tank by the stairs
Check of 1 March 2027

Nothing failed, and nothing was left in doubt.
${END}`);
});

test('a check with findings, whole', () => {
  const report: CheckReport = {
    ...clear,
    findings: [findingOf({ level: 'error', accepted: 'He lends a hand' })],
    staleAcceptances: [{ key: 'gape:a', why: 'not-found' }],
    cautions: [{ kind: 'never-release', severity: 'duty', species: ['vigilia-prima'], message: 'caution.neverRelease' }],
  };
  const { title: _, ...untitled } = situation;
  expect(checkText(metric, untitled, report)).toBe(`Check of 1 March 2027

What was found
--------------
  Serious
    How hard Wick is to keep is not on record, so it cannot be told whether the keeper
    is ready for it. Ask those who keep it first. (Accepted: He lends a hand)

  An accepted finding no longer applies; take it out of the settings: gape:a

Cautions
--------
  Never set an aquarium animal free. If one cannot stay, return it to a shop or a club.
${END}`);
});

test('a wish list does not pass for checked', () => {
  const wishing = (count: number): string =>
    checkText(metric, { ...situation, wishes: Array.from({ length: count }, () => ({ species: 'vigilia-prima' })) }, clear);
  expect(wishing(1)).toContain('\nThe one wish is not judged here: commensal plan does that.\n');
  expect(wishing(3)).toContain('\nThe 3 wishes are not judged here: commensal plan does that.\n');
});

test('doubts that are only notes are not called nothing', () => {
  const text = checkText(metric, situation, { ...clear, findings: [findingOf({ level: 'note', outcome: 'cantTell' })] });
  expect(text).not.toContain('nothing was left in doubt');
  expect(text).toContain('One finding is good to know');
});
