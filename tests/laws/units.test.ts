import { check, convert, libraryOf, rules, stockOf } from '@commensal/core';
import type { Datum, Finding } from '@commensal/schema';
import { records as sample } from '@commensal/species-sample';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

/** For every unit the documents are generated in, the others of its kind. */
const OTHERS: Readonly<Record<string, readonly string[]>> = {
  cm: ['mm', '[in_i]'],
  L: ['[gal_us]'],
  kg: ['g', '[lb_av]'],
  Cel: ['[degF]'],
};

/** The same document with its quantities in other units: for each the one that `pick` chooses. */
function inOtherUnits<Value>(value: Value, pick: (units: readonly string[]) => string): Value {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => inOtherUnits(item, pick)) as Value;
  const { unit, ...rest } = value as { unit?: string } & Record<string, unknown>;
  const others = unit === undefined ? undefined : OTHERS[unit];
  if (unit !== undefined && others !== undefined) {
    const to = pick(others);
    const converted = Object.entries(rest).map(([name, number]) => [name, typeof number === 'number' ? convert(number, unit, to) : number]);
    return { ...Object.fromEntries(converted), unit: to } as Value;
  }
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, inOtherUnits(item, pick)])) as Value;
}

const findingsOf = (scene: Scene): readonly Finding[] => check(stockOf(scene.situation, libraryFor(scene)).stock, rules).findings;

/** Numbers are told rounded, to half a centimetre or a whole litre at the coarsest: a last digit may turn on the sixteenth. */
const ONE_STEP = 1;

const sameDatum = (one: Datum | undefined, other: Datum | undefined): void => {
  const { value, date, ...rest } = one ?? {};
  const { value: otherValue, date: otherDate, ...otherRest } = other ?? {};
  expect(rest).toEqual(otherRest);
  if (value !== undefined) expect(Math.abs(value - (otherValue ?? Number.NaN))).toBeLessThanOrEqual(ONE_STEP);
  expect(Math.abs(Date.parse(date ?? '2027-03-01') - Date.parse(otherDate ?? '2027-03-01'))).toBeLessThanOrEqual(86_400_000);
};

const told = ({ outcome, level, message, basis }: Finding): unknown => ({ outcome, level, message, basis });

describe('units', () => {
  it('a check in millimetres, inches, gallons, grams, pounds and degrees Fahrenheit finds the same', () => {
    let compared = 0;
    fc.assert(
      fc.property(scenes(), fc.array(fc.nat(1), { minLength: 40, maxLength: 40 }), (scene, picks) => {
        let at = 0;
        const pick = (units: readonly string[]): string => units[(picks[at++ % picks.length] ?? 0) % units.length] as string;
        const after = findingsOf({
          ...scene,
          situation: inOtherUnits(scene.situation, pick),
          invented: scene.invented.map((record) => inOtherUnits(record, pick)),
        });
        const byKey = new Map(after.map((finding) => [finding.key, finding]));
        const before = findingsOf(scene);
        expect([...byKey.keys()].sort()).toEqual(before.map(({ key }) => key).sort());
        for (const finding of before) {
          const other = byKey.get(finding.key) as Finding;
          expect(told(other), finding.key).toEqual(told(finding));
          for (const name of Object.keys(finding.data)) sameDatum(finding.data[name], other.data[name]);
          compared += 1;
        }
      }),
      { numRuns: runs(1000) },
    );
    expect(compared).toBeGreaterThan(0);
  });

  it('so does one by the sample in other units', () => {
    const foreign = sample.map((record) => inOtherUnits(record, (units) => units.at(-1) as string));
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 1 }), ({ situation, invented }) => {
        const keys = (library: ReturnType<typeof libraryOf>): string[] =>
          check(stockOf(situation, library).stock, rules)
            .findings.map(({ key, outcome, level }) => `${key} ${outcome} ${level}`)
            .sort();
        expect(keys(libraryOf([...invented, ...foreign]))).toEqual(keys(libraryOf([...invented, ...sample])));
      }),
      { numRuns: runs(1000) },
    );
  });
});
