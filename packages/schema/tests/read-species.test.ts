/** Strict and tolerant reading: two readers, one validator. */
import { describe, expect, it } from 'vitest';
import { readSpecies, speciesProblems } from '../src/index.js';
import { childPointer } from '../src/pointer.js';
import { schemaAddress } from '../src/schema-version.js';
import { patched } from '../tools/patch.mjs';
import { instancesOf } from '../tools/schema-walk.mjs';
import { documentsUnderTest, type Json, type Node } from './documents.js';

const species = documentsUnderTest.find(({ name }) => name === 'species');
if (species === undefined) throw new Error('the species document is not under test');
const { schema, positives, constraintNegatives } = species;
const documents = [...positives.values()] as Node[];

const later = (document: Node, more: Node = {}): Node => ({ ...document, $schema: schemaAddress('species', '1.3'), ...more });

/** The pointers of every object of a record that knows all its properties. */
function closedPlaces(document: Json): string[] {
  const found = new Set<string>();
  for (const [location, instances] of instancesOf(schema, document) as Map<string, { pointer: string; value: Json }[]>) {
    let node: Json | undefined = schema;
    for (const key of location.split('/').slice(1)) node = (node as Node | undefined)?.[key];
    if ((node as Node).additionalProperties === false) for (const { pointer } of instances) found.add(pointer);
  }
  return [...found];
}

function withMember(document: Json, pointer: string, name: string, value: Json): Json {
  const copy = structuredClone(document) as Record<string, Json>;
  let here = copy;
  for (const key of pointer.split('/').slice(1)) here = here[key] as Record<string, Json>;
  here[name] = value;
  return copy;
}

describe('a record of this version', () => {
  it('is read as it is, and no stricter or laxer than it is checked', () => {
    expect(documents.length).toBeGreaterThan(0);
    for (const document of documents) expect(readSpecies(document)).toEqual({ record: document, notices: [], problems: [] });
    const bent = { ...documents[0], girth: 3 };
    expect(readSpecies(bent)).toEqual({ record: undefined, notices: [], problems: speciesProblems(bent) });
    expect(speciesProblems(bent)).toHaveLength(1);
  });
});

describe('a record of a later minor version', () => {
  it('that holds nothing new is read whole', () => {
    for (const document of documents) expect(readSpecies(later(document))).toEqual({ record: document, notices: [], problems: [] });
  });

  it('is read without what is new, wherever that stands, and says where', () => {
    let places = 0;
    for (const document of documents) {
      for (const pointer of closedPlaces(document)) {
        places += 1;
        const { record, notices, problems } = readSpecies(
          withMember(later(document), pointer, 'ofLaterDays', { value: 3, basis: 'practice' }),
        );
        expect(problems).toEqual([]);
        expect(record).toEqual(document);
        expect(notices.map(({ code, pointer: place }) => ({ code, place }))).toEqual([
          { code: 'later-property', place: childPointer(pointer, 'ofLaterDays') },
        ]);
      }
    }
    expect(places).toBeGreaterThan(100);
  });

  it('does not blame it for a source that only the new property names', () => {
    const [document] = documents as [Node];
    const sources = [...(document.sources as string[]), 'zz-later-2031'];
    const newer = later(document, { sources, girth: { value: 3, basis: 'measured', source: 'zz-later-2031' } });
    const { record, notices, problems } = readSpecies(newer);
    expect(problems).toEqual([]);
    expect(notices).toHaveLength(1);
    expect(record).toEqual(document);
  });

  it('is still blamed for a source that nothing names', () => {
    const [document] = documents as [Node];
    const { record, problems } = readSpecies(later(document, { girth: 3, sources: [...(document.sources as string[]), 'zz-idle-2031'] }));
    expect(record).toBeUndefined();
    expect(problems.map(({ code }) => code)).toEqual(['source-not-used']);
  });

  it('is judged by every constraint on what is known', () => {
    // What is not known is the one thing that is let pass, and the address of the schema the one that is changed.
    const strict = constraintNegatives.filter(({ breaks }) => !/additionalProperties$|\$schema/.test(breaks));
    expect(strict.length).toBeGreaterThan(200);
    for (const { from, patch, code, pointer, breaks } of strict) {
      const [{ path = '' } = {}] = patch;
      if (path === '' || path === '/$schema') continue;
      const broken = later(patched(positives.get(from), patch) as Node);
      const { record, problems } = readSpecies(broken);
      expect(record, breaks).toBeUndefined();
      expect(
        problems.map((problem) => ({ code: problem.code, pointer: problem.pointer })),
        breaks,
      ).toEqual([{ code, pointer }]);
      expect(problems[0]?.fix).toContain('schema 1.3');
    }
  });

  it('is refused by the strict check, with one message', () => {
    const [document] = documents as [Node];
    expect(speciesProblems(later(document, { girth: 3 })).map(({ code, pointer }) => ({ code, pointer }))).toEqual([
      { code: 'later-schema', pointer: '/$schema' },
    ]);
  });
});

describe('a record of another major version', () => {
  it.each([
    ['2.0', 'later-schema'],
    ['0.9', 'earlier-schema'],
  ])('%s is not read at all', (version, code) => {
    const [document] = documents as [Node];
    const { record, notices, problems } = readSpecies({ ...document, $schema: schemaAddress('species', version) });
    expect(record).toBeUndefined();
    expect(notices).toEqual([]);
    expect(problems.map((problem) => problem.code)).toEqual([code]);
  });
});
