import { libraryOf } from '@commensal/core';
import { speciesProblems, type SpeciesRecord } from '@commensal/schema';
import { bibliography, records, release, standIns } from '@commensal/species-sample';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOf } from '../../../../tests/support/repository.js';
import { entriesAt, FIELDS, recordPath } from '../index.js';
import {
  draftRecord,
  familiesKnown,
  familyOfGenus,
  formOfFamily,
  idOf,
  kinOfGenus,
  nearFamily,
  nearName,
  nextRelease,
  recordedAs,
} from './draft-record.js';

const library = libraryOf(records, standIns, release);
const keys = new Set(bibliography.map(({ id }) => id));

/** Properties of the schema in their order, for every object of a record. */
const schema = JSON.parse(textOf('packages/schema/schemas/1.0/species.schema.json'));
const resolved = (shape: Record<string, never>): Record<string, never> =>
  shape.$ref === undefined ? shape : resolved(schema.$defs[String(shape.$ref).split('/').at(-1) ?? '']);

function expectSchemaOrder(part: unknown, shape: Record<string, never>, path: string): void {
  const { properties = {}, items } = resolved(shape) as {
    properties?: Record<string, Record<string, never>>;
    items?: Record<string, never>;
  };
  if (Array.isArray(part)) for (const one of part) if (items !== undefined) expectSchemaOrder(one, items, path);
  if (typeof part !== 'object' || part === null || Array.isArray(part)) return;
  const names = Object.keys(part);
  expect(names, path).toEqual(Object.keys(properties).filter((name) => names.includes(name)));
  for (const [name, inner] of Object.entries(part)) {
    const next = properties[name];
    if (typeof next === 'object') expectSchemaOrder(inner, next, `${path}.${name}`);
  }
}

const letters = (min: number, max: number): fc.Arbitrary<string> =>
  fc.string({ unit: fc.constantFrom(...'abcdefghijklmnopqrstuvwxyz'), minLength: min, maxLength: max });

const genera = [...new Set(records.map(({ taxon }) => taxon.genus))];

/** Any genus and species: a genus that records know, or one made up, in any family that records or stand-ins know. */
const inputs = fc
  .record({
    genus: fc.oneof(
      fc.constantFrom(...genera),
      letters(2, 20).map((text) => text.charAt(0).toUpperCase() + text.slice(1)),
    ),
    epithet: letters(2, 20),
    family: fc.constantFrom(...familiesKnown(library)),
    maximum: fc.option(
      fc.record({
        value: fc.integer({ min: 1, max: 3000 }).map((tenths) => tenths / 10),
        unit: fc.constantFrom('cm' as const, 'mm' as const, '[in_i]' as const),
        lengthType: fc.constantFrom('TL' as const, 'SL' as const, 'FL' as const),
        source: fc.option(fc.constantFrom(...keys), { nil: undefined }),
      }),
      { nil: undefined },
    ),
  })
  .map(({ genus, epithet, family, maximum }) => {
    const known = familyOfGenus(genus, library) ?? family;
    return {
      scientificName: `${genus} ${epithet}`,
      family: known,
      form: formOfFamily(known, library) ?? ('fish' as const),
      vernacularNames: [{ name: 'an example', language: 'en' }] as SpeciesRecord['vernacularNames'],
      addedIn: '2026.2',
      maximum,
    };
  });

describe('a first record of any species of a family that is known', () => {
  it('is valid, in the order of the schema, grounds each figure, and guesses no conduct', () => {
    let imputed = 0;
    fc.assert(
      fc.property(inputs, (input) => {
        const record = draftRecord(input, library);
        expect(speciesProblems(record)).toEqual([]);
        expectSchemaOrder(record, schema, 'record');
        expect(recordPath(record)).toContain(idOf(input.scientificName));
        for (const field of FIELDS) {
          for (const entry of entriesAt(record, field)) {
            if (field === 'size.maximum') continue;
            if (field === 'kinGroup') {
              expect(entry).toEqual({ value: kinOfGenus(record.taxon.genus, library), basis: 'practice' });
              continue;
            }
            imputed += 1;
            expect(entry).toMatchObject({ basis: 'imputed', from: expect.stringMatching(/^(genus|family)$/), note: expect.any(String) });
            expect(keys.has(entry.source ?? '')).toBe(true);
            if (field !== 'size.weight') {
              const { low, value, high } = entry as { low?: number; value?: number; high?: number };
              expect(Number(low)).toBeLessThan(Number(value));
              expect(Number(value)).toBeLessThan(Number(high));
            }
          }
        }
        expect(record).not.toHaveProperty('conduct');
        expect(record).not.toHaveProperty('feeding');
        expect(record).not.toHaveProperty('needs');
      }),
    );
    expect(imputed).toBeGreaterThan(100);
  });
});

/** A record as if all that stands in for it were asked for: what the draft of its species would hold. */
const drafted = ({ taxon, form, vernacularNames, id }: SpeciesRecord): SpeciesRecord =>
  draftRecord(
    { scientificName: taxon.scientificName, family: taxon.family, form, vernacularNames, addedIn: '2026.2' },
    // The species itself must not stand in for itself through its own record.
    libraryOf(
      records.filter((record) => record.id !== id),
      standIns,
      release,
    ),
  );

describe('bands of what stands in', () => {
  /** Of how many species of the sample the measured figure lies within the band that a draft would state. */
  function within(field: string): { readonly inside: number; readonly of: number } {
    const told = records.flatMap((record) => {
      const [measured] = entriesAt(record, field);
      const [standing] = entriesAt(drafted(record), field);
      const { value } = (measured ?? {}) as { value?: number };
      const { low, high } = (standing ?? {}) as { low?: number; high?: number };
      if (measured?.basis !== 'measured' || value === undefined || low === undefined || high === undefined) return [];
      return [value >= low && value <= high];
    });
    return { inside: told.filter((is) => is).length, of: told.length };
  }

  // A band is to hold the central 80 %. Of n species the share inside has a standard deviation of sqrt(0.8 x 0.2 / n): 0.052 at 60.
  // Three of them below is 0.64, and fewer would mean that bands promise too much. Bands that hold more are no fault: the medians
  // are over all species measured, these among them. Measured with release 2026.1: depth 49 of 60, width 51 of 60, jaw 44 of 61.
  it.each(['shape.bodyDepth', 'shape.bodyWidth', 'shape.lowerJaw'])(
    '%s of the species measured lies within in at least 64 of 100',
    (field) => {
      const { inside, of } = within(field);
      expect(of).toBeGreaterThan(50);
      expect(inside / of).toBeGreaterThan(0.64);
    },
  );

  // The error of growth rates in the table is drawn from these very species.
  it('growth.rate lies within in at least 75 of 100', () => {
    const { inside, of } = within('growth.rate');
    expect(of).toBeGreaterThan(15);
    expect(inside / of).toBeGreaterThan(0.75);
  });

  // Weights of one species differ up to 1.6-fold between sources; a family stands further apart.
  it('the weight at 10 cm is within twofold of the measured for nine of ten species', () => {
    const at10 = (weight: SpeciesRecord['size']): number | undefined =>
      weight?.weight === undefined ? undefined : weight.weight.a * Math.exp(weight.weight.b * Math.log(10));
    const ratios = records.flatMap((record) => {
      if (record.size?.weight?.basis !== 'measured') return [];
      const [own, standing] = [at10(record.size), at10(drafted(record).size)];
      return own === undefined || standing === undefined ? [] : [own / standing];
    });
    expect(ratios.length).toBeGreaterThan(8);
    expect(ratios.filter((ratio) => ratio > 0.5 && ratio < 2).length / ratios.length).toBeGreaterThanOrEqual(0.9);
  });
});

describe('what is known before anything is told', () => {
  it('the family of a genus, the form of a family', () => {
    expect(familyOfGenus('Halichoeres', library)).toBe('Labridae');
    expect(familyOfGenus('Novum', library)).toBeUndefined();
    expect(formOfFamily('Labridae', library)).toBe('fish');
    expect(formOfFamily('Lysmatidae', library)).toBe('shrimp');
    expect(formOfFamily('Novidae', library)).toBeUndefined();
    expect(formOfFamily('Labridae', libraryOf([], standIns))).toBe('fish');
  });

  it('a family that nothing knows, and the one that was meant', () => {
    expect(nearFamily('Labridea', library)).toBe('Labridae');
    expect(nearFamily('Labridae', library)).toBeUndefined();
  });

  it('a species that has a record, by its name or by a synonym', () => {
    expect(recordedAs('Gramma loreto', library)?.id).toBe('gramma-loreto');
    expect(recordedAs('Premnas biaculeatus', library)?.id).toBe('amphiprion-biaculeatus');
    expect(recordedAs('Gramma melacara', library)).toBeUndefined();
  });

  it('the release that comes next', () => {
    expect(nextRelease('2026.9')).toBe('2026.10');
    expect(() => nextRelease('soon')).toThrow(RangeError);
  });
});

describe('the kin group of a first record', () => {
  it('is that of its genus, where all records of it name one', () => {
    expect(kinOfGenus('Amphiprion', library)).toBe('anemonefish');
    expect(kinOfGenus('Chrysiptera', library)).toBe('damselfish');
  });

  it('is left out where they name none, or there are none', () => {
    expect(kinOfGenus('Pterois', library)).toBeUndefined();
    expect(kinOfGenus('Nobody', library)).toBeUndefined();
  });
});

describe('a slip of the pen', () => {
  it('in a species, in a genus, in neither', () => {
    expect(nearName('Amphiprion ocelaris', library)).toEqual({ species: 'Amphiprion ocellaris' });
    expect(nearName('Chrysipterra hemicyanea', library)).toEqual({ genus: 'Chrysiptera' });
    expect(nearName('Halichoeres melanurus', library)).toEqual({});
    expect(nearName('Chrysiptera hemicyanea', library)).toEqual({});
  });
});
