/** Mistakes that volunteers make, one at a time, in copies of records of the sample: each must give one right message, and no other. */
import {
  collectionProblems,
  formProblems,
  idOfFile,
  jsonText,
  PROBLEM_CODES,
  RECORD_CODES,
  recordForm,
  recordPath,
  recordProblems,
} from '@commensal/records';
import { type Problem, speciesProblems } from '@commensal/schema';
import { validate } from '@commensal/schema/validate/species';
import { bibliography, records, standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { parseJson } from '../../packages/cli/src/parse-json.js';
import { textOf } from '../support/repository.js';
import { fileOf, foundIn, type Mistake, pointerOf } from './planted.mjs';

const sample = { records, bibliography, standIns };
const tools = {
  collectionProblems,
  formProblems,
  idOfFile,
  jsonText,
  parseJson,
  recordForm,
  recordPath,
  recordProblems,
  speciesProblems,
  validate,
};
const mistakes: readonly Mistake[] = JSON.parse(textOf('tests/records/planted-mistakes.json'));

/** Of files that the file system or the encoding keeps from being read: they have no text to plant in. */
const NO_TEXT = ['no-such-file', 'not-a-file', 'not-utf-8', 'unreadable'];

describe('the sample', () => {
  it('has no problem, record by record', () => {
    const context = { bibliography, standIns };
    expect(records.length).toBeGreaterThan(80);
    for (const record of records) expect(recordProblems(record, context), record.id).toEqual([]);
  });

  it('has no problem between its records', () => {
    expect(foundIn({ edits: [] }, sample, tools)).toEqual([]);
  });
});

describe('planted mistakes', () => {
  it('are sixty or more', () => {
    expect(mistakes.length).toBeGreaterThanOrEqual(60);
  });

  it('are of every code that a check of records may give', () => {
    const planted = new Set(mistakes.map(({ code }) => code));
    const wanted = Object.keys(RECORD_CODES).filter((code) => !NO_TEXT.includes(code));
    expect(wanted.length).toBeGreaterThan(60);
    expect(wanted.filter((code) => !planted.has(code))).toEqual([]);
    expect([...planted].filter((code) => PROBLEM_CODES[code] === undefined)).toEqual([]);
  });

  it('are each another one', () => {
    expect(new Set(mistakes.map(({ edits }) => JSON.stringify(edits))).size).toBe(mistakes.length);
  });

  it.each(mistakes)('$code: $says', (mistake) => {
    const found: readonly Problem[] = foundIn(mistake, sample, tools);
    const told = found.map(({ code, pointer, file }) => ({ code, pointer, file }));
    expect(told).toEqual([{ code: mistake.code, pointer: pointerOf(mistake, sample, tools), file: fileOf(mistake, sample, tools) }]);
    const [problem] = found as [Problem];
    expect(problem.fix).toContain(mistake.fix);
    for (const text of [problem.found, problem.allowed, problem.fix]) expect(text).not.toMatch(/undefined|\[object|NaN|Infinity|^\s*$/);
    // "found; allowed. fix": two clauses and a sentence or two.
    for (const clause of [problem.found, problem.allowed]) expect(clause).not.toMatch(/^[A-Z]|\.$/);
    expect(problem.fix).toMatch(/[.?]$/);
  });
});
