import { check, libraryOf, rules, stockOf } from '@commensal/core';
import { situationProblems, type SpeciesRecord } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { lookAt } from './meetings.js';
import { referenceSituation } from './reference-tank.js';
import { worthFinding } from './worth-finding.js';

const of = (id: string): SpeciesRecord => {
  const record = records.find((one) => one.id === id);
  if (record === undefined) throw new Error(`no record ${id}`);
  return record;
};

/** Few species, so that what hangs on a field can be counted by hand. */
const gramma = of('gramma-loreto');
const few = libraryOf([gramma, of('pterois-volitans'), of('amphiprion-ocellaris')], standIns);

const without = (record: SpeciesRecord, group: 'shape' | 'conduct', name: string): SpeciesRecord => {
  const { [name]: _, ...rest } = record[group] as Record<string, unknown>;
  return { ...record, [group]: rest } as SpeciesRecord;
};

const worthOf = (record: SpeciesRecord, field: string) => worthFinding(record, few).worth.find((one) => one.field === field);

describe('the tank of reference', () => {
  it('is a valid situation of which everything is told that rules ask of a tank', () => {
    const situation = referenceSituation(gramma, of('pterois-volitans'));
    expect(situationProblems(situation)).toEqual([]);
    const needs = new Set(rules.flatMap((rule) => rule.needs.filter((need) => need.startsWith('tank.'))));
    expect(needs.size).toBeGreaterThan(10);
    for (const record of records) {
      const { stock } = stockOf(referenceSituation(record), libraryOf([record], standIns));
      const asked = check(stock, rules).findings.flatMap(({ data }) => data.missing?.keys ?? []);
      expect(
        asked.filter((name) => name.startsWith('tank.') || name === 'purchasedOn'),
        record.id,
      ).toEqual([]);
    }
  });
});

describe('what hangs on a field that is missing', () => {
  it('is nothing where it is on record', () => {
    expect(worthOf(gramma, 'shape.gapeClass')).toBeUndefined();
    expect(worthOf(gramma, 'conduct.escapes')).toBeUndefined();
  });

  // Of three species (itself, lionfish, anemonefish) each can be swallowed as far as anyone knows who does not know how it swallows.
  it('counts each species once, whichever of the two comes first', () => {
    const worth = worthOf(without(gramma, 'shape', 'gapeClass'), 'shape.gapeClass');
    expect(worth).toMatchObject({ why: 'missing', standing: 'absent', mates: 3, alone: false });
    expect(worth?.rules).toEqual([{ rule: 'gape', findings: 3 }]);
  });

  it('counts what is about the species alone once, not beside each other', () => {
    const worth = worthOf(without(gramma, 'conduct', 'escapes'), 'conduct.escapes');
    expect(worth).toMatchObject({ mates: 0, alone: true, findings: { error: 0, warning: 1, note: 0 } });
  });

  it('counts what the checks say cannot be told for want of it', () => {
    const record = without(gramma, 'conduct', 'pugnacity');
    const told = [...lookAt(record, few).judgements.values()].filter(
      ({ finding }) => finding.outcome === 'cantTell' && (finding.data.missing?.keys ?? []).includes('conduct.pugnacity'),
    );
    expect(told.length).toBeGreaterThan(3);
    const pairs = new Set(told.map(({ mate, finding }) => `${mate} ${finding.rule}`));
    const { error = 0, warning = 0, note = 0 } = worthOf(record, 'conduct.pugnacity')?.findings ?? {};
    expect(error + warning + note).toBe(pairs.size);
  });

  it('a gap behind a gap is found: nobody asks how deep a body is before the way of swallowing is known', () => {
    const { shape: _, ...bare } = { ...gramma, taxon: { ...gramma.taxon, genus: 'Novum', family: 'Novidae' } };
    const library = libraryOf(
      [...few.records.values()].map((record) =>
        record.id === 'gramma-loreto' ? { ...gramma, id: 'novum-alter', taxon: { ...gramma.taxon, family: 'Novidae' } } : record,
      ),
    );
    const { worth, supposed } = worthFinding({ ...bare, id: 'novum-primum' }, library);
    expect(supposed).toBe('novum-alter');
    const fields = worth.map(({ field }) => field);
    expect(fields).toContain('shape.gapeClass');
  });
});

describe('what hangs on a figure that is not sure', () => {
  /** The same fish with a jaw that is sure, and with one of which nobody knows whether it is narrow or wide. */
  const jawed = (low: number, high: number): SpeciesRecord => ({
    ...gramma,
    shape: {
      ...gramma.shape,
      lowerJaw: { value: Math.sqrt(low * high), low, high, unit: '1', per: 'SL', basis: 'imputed', from: 'family', source: 'price-2022' },
    },
  });

  it('is more where the band is wider', () => {
    const narrow = worthOf(jawed(0.149, 0.151), 'shape.lowerJaw')?.weight ?? 0;
    const wide = worthOf(jawed(0.02, 0.9), 'shape.lowerJaw')?.weight ?? 0;
    expect(wide).toBeGreaterThan(narrow);
    expect(wide).toBeGreaterThan(0);
  });

  it('is nothing where the figure is measured', () => {
    const measured: SpeciesRecord = {
      ...gramma,
      shape: { ...gramma.shape, bodyDepth: { value: 0.3, unit: '1', per: 'SL', basis: 'measured', source: 'price-2022' } },
    };
    expect(worthOf(measured, 'shape.bodyDepth')).toBeUndefined();
  });
});

it('comes in falling order of weight, an error before three warnings and a note', () => {
  const { worth } = worthFinding({ ...gramma, conduct: {}, shape: {} }, few);
  expect(worth.length).toBeGreaterThan(3);
  const weights = worth.map(({ weight }) => weight);
  expect(weights).toEqual([...weights].sort((one, other) => other - one));
  for (const { weight, findings } of worth) expect(weight).toBe(9 * findings.error + 3 * findings.warning + findings.note);
});

it('asking changes nothing in the record', () => {
  const before = JSON.stringify(gramma);
  worthFinding(gramma, few);
  expect(JSON.stringify(gramma)).toBe(before);
});
