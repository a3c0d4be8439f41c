/** The migration from the draft 0.9, on records of that form kept as they are. */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type MigratedSpecies, migrateSpecies, speciesProblems } from '../src/index.js';
import { childPointer, valueAt } from '../src/pointer.js';
import { patched } from '../tools/patch.mjs';
import { type Json, type Node, packageFolder, readJson } from './documents.js';

const FIXTURES = ['tests', 'fixtures', '0.9'];
const files = readdirSync(path.join(packageFolder, ...FIXTURES, 'records'));
const drafts = files.map((file) => ({ file, draft: readJson(...FIXTURES, 'records', file) as Node }));
const draftSchema = readJson(...FIXTURES, 'species.schema.json') as Node;

const draftNamed = (id: string): Node => drafts.find(({ draft }) => draft.id === id)?.draft ?? {};

/** Every text, number and truth value in a document. */
function leavesOf(value: Json): string[] {
  if (typeof value !== 'object' || value === null) return [JSON.stringify(value)];
  return Object.values(value).flatMap(leavesOf);
}

/** Words that the migration puts in place of others, and what it may write besides. */
const WORDS = new Map(
  Object.entries({
    published: 'measured',
    computed: 'derived',
    relatives: 'imputed',
    trade: 'practice',
    memory: 'recalled',
    C: 'Cel',
    pH: '[pH]',
    'per year': '/a',
    'per day': '/d',
    years: 'a',
    days: 'd',
    ratio: '1',
  }).map(([was, is]) => [JSON.stringify(was), JSON.stringify(is)]),
);

const lost = (draft: Node, { document, notices }: MigratedSpecies): string[] => {
  const left = leavesOf(document as Json);
  // A basis that was lowered is told of.
  const lowered = notices.filter(({ pointer }) => pointer.endsWith('/evidence')).length;
  const missing = leavesOf(draft).filter((leaf) => {
    const is = WORDS.get(leaf) ?? (leaf === String(draft.aphiaId) ? `"urn:lsid:marinespecies.org:taxname:${leaf}"` : leaf);
    // What stands where no figure is goes over as it is.
    const at = left.includes(is) ? left.indexOf(is) : left.indexOf(leaf);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  return missing.filter((leaf) => leaf !== JSON.stringify(draft.$schema)).slice(lowered);
};

describe('the drafts', () => {
  it('are right by the schema they name', () => {
    const validate = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(draftSchema);
    expect(drafts.length).toBeGreaterThan(2);
    for (const { file, draft } of drafts)
      expect({ file, valid: validate(draft), errors: validate.errors }).toEqual({ file, valid: true, errors: null });
  });
});

describe.each(drafts)('$file', ({ draft }) => {
  const migrated = migrateSpecies(draft);

  it('becomes a record that passes', () => {
    expect(migrated.steps).toEqual(['0.9 to 1.0']);
    expect(speciesProblems(migrated.document)).toEqual([]);
  });

  it('loses nothing', () => expect(lost(draft, migrated)).toEqual([]));

  it('stays as it is when it is migrated again', () => {
    expect(migrateSpecies(migrated.document)).toEqual({ document: migrated.document, steps: [], notices: [] });
  });

  it('is not changed itself', () => {
    const before = structuredClone(draft);
    migrateSpecies(draft);
    expect(draft).toEqual(before);
  });

  it('gets the same from its members in any order, but for their order', () => {
    const turned = Object.fromEntries(Object.entries(draft).reverse());
    expect(migrateSpecies(turned).document).toEqual(migrated.document);
  });

  it('says where each thing is that it could not carry over', () => {
    for (const { pointer } of migrated.notices) expect(valueAt(draft, pointer), pointer).not.toBeUndefined();
  });
});

describe('what has no place in 1.0', () => {
  const draft = draftNamed('gramma-loreto');
  const { document, notices } = migrateSpecies(draft);

  it('is kept aside and told', () => {
    expect(valueAt(document, '/extensions/schema-0-9')).toEqual({
      '/lengths/captiveAdult/reference': 'price-2022',
      '/lengths/totalPerStandard/reference': 'froese-pauly-2018',
      '/lengths/maximum/howMeasured': 'along the belly',
      '/remarks': 'Seen in three tanks of the club.',
      '/references/2': 'never-used-1999',
    });
    expect(notices.map(({ pointer }) => pointer)).toEqual([
      '/lengths/maximum/howMeasured',
      '/lengths/captiveAdult/reference',
      '/lengths/totalPerStandard/evidence',
      '/lengths/totalPerStandard/reference',
      '/shape/bodyWidth/evidence',
      '/remarks',
      '/references/2',
    ]);
  });

  it('a figure without what its basis asks for is no more than recalled', () => {
    expect(valueAt(document, '/shape/bodyWidth/basis')).toBe('recalled');
    expect(valueAt(document, '/shape/bodyDepth/basis')).toBe('measured');
    expect(valueAt(document, '/size/totalPerStandard/basis')).toBe('recalled');
  });

  it('two names for one thing are both kept', () => {
    const doubled = {
      ...draft,
      taxon: { tribe: 'any' },
      growth: { rate: { low: 0.3, high: 2, min: 0.5, max: 2.9, unit: 'per year', evidence: 'memory' } },
    };
    const migrated = migrateSpecies(doubled);
    expect(speciesProblems(migrated.document)).toEqual([]);
    expect(valueAt(migrated.document, '/growth/rate')).toEqual({ low: 0.3, high: 2, unit: '/a', basis: 'recalled' });
    expect(valueAt(migrated.document, '/extensions/schema-0-9')).toMatchObject({
      '/taxon': { tribe: 'any' },
      '/growth/rate/min': 0.5,
      '/growth/rate/max': 2.9,
    });
    expect(lost(doubled as Node, migrated)).toEqual([]);
  });

  it('extensions of others stay beside it', () => {
    const { document: kept } = migrateSpecies({ ...draft, extensions: { club: { tank: 4 } } });
    expect(valueAt(kept, '/extensions/club')).toEqual({ tank: 4 });
    expect(valueAt(kept, '/extensions/schema-0-9/~1remarks')).toBe('Seen in three tanks of the club.');
  });
});

describe('what is not of an earlier version', () => {
  it.each([null, 7, 'text', {}, { $schema: 'https://commensal.example/schema/0.3/species.schema.json' }])(
    '%j comes back as it is',
    (document) => {
      expect(migrateSpecies(document)).toEqual({ document, steps: [], notices: [] });
    },
  );

  it('a mistake in a draft stays a mistake', () => {
    const draft = draftNamed('gramma-loreto');
    const wrong = migrateSpecies({ ...draft, lengths: { maximum: { value: 'eight', unit: 'cm', evidence: 'hearsay' } } });
    expect(speciesProblems(wrong.document).map(({ code, pointer }) => `${code} ${pointer}`)).toEqual([
      'wrong-type /size/maximum/value',
      'not-in-list /size/maximum/basis',
    ]);
  });
});

const RUNS = Number(process.env.COMMENSAL_RUNS ?? 1000);

/** Every place in a document but that of its schema. */
function placesOf(value: Json, pointer = ''): string[] {
  if (typeof value !== 'object' || value === null) return [pointer];
  return [
    ...(pointer === '' ? [] : [pointer]),
    ...Object.entries(value).flatMap(([key, member]) => (key === '$schema' ? [] : placesOf(member, childPointer(pointer, key)))),
  ];
}

describe('whatever stands anywhere in a draft', () => {
  const odd = fc.constantFrom<Json>(
    'odd-1',
    77.5,
    ['odd-2', 78.5],
    { evidence: 'odd-3', min: 79.5 },
    { odd: { deeper: 'odd-4' } },
    { low: 80.5, min: 81.5 },
  );
  const broken = fc
    .constantFrom(...drafts.map(({ draft }) => draft))
    .chain((draft) =>
      fc.record({
        draft: fc.constant(draft),
        path: fc.constantFrom(...placesOf(draft)),
        op: fc.constantFrom('replace', 'remove', 'beside'),
        name: fc.constantFrom('odd', 'size', 'taxon', 'low', 'basis', 'sources', 'vernacularNames', 'value'),
        value: odd,
      }),
    )
    .map(({ draft, path, op, name, value }) => {
      const parent = path.slice(0, path.lastIndexOf('/'));
      const isList = Array.isArray(valueAt(draft, parent));
      const beside = { op: 'add', path: isList ? `${parent}/-` : `${parent}/${name}`, value };
      return patched(draft, [op === 'beside' ? beside : { op, path, value }]) as Node;
    });

  it('nothing is lost, and a second time changes nothing', () => {
    fc.assert(
      fc.property(broken, (draft) => {
        const migrated = migrateSpecies(draft);
        expect(lost(draft, migrated)).toEqual([]);
        expect(migrateSpecies(migrated.document).document).toEqual(migrated.document);
      }),
      { numRuns: RUNS },
    );
  });
});
