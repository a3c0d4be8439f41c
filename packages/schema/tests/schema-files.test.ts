import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { SCHEMA_VERSION } from '../src/index.js';
import { patternWords } from '../src/pattern-words.js';
import { documents, VERSION } from '../source/index.js';
import { documentsUnderTest, type Json, type Node, packageFolder } from './documents.js';

const generated = path.join(packageFolder, 'src', 'generated');
const schemas = documents as unknown as Readonly<Record<string, Node>>;

/** Every object in a schema, with the name it goes by. */
function nodesOf(node: Json, name = ''): { readonly name: string; readonly node: Node }[] {
  if (typeof node !== 'object' || node === null) return [];
  const below = Object.entries(node).flatMap(([key, value]) => nodesOf(value, key));
  return Array.isArray(node) ? below : [{ name, node: node as Node }, ...below];
}

const nodes = Object.values(schemas).flatMap((schema) => nodesOf(schema));
const having = (keyword: string): readonly { readonly name: string; readonly node: Node }[] =>
  nodes.filter(({ node }) => Object.hasOwn(node, keyword));

interface DescribedPart {
  readonly place: string;
  readonly node: Node;
}

/** Properties and entries of lists, wherever they stand; conditions and `true` have their description elsewhere. */
function describedParts(node: Json, place = '#'): DescribedPart[] {
  if (typeof node !== 'object' || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) => {
    const here = `${place}/${key}`;
    if (key === 'if' || key === 'then' || key === 'anyOf') return [];
    const below = describedParts(value, here);
    if (key === 'items') return [{ place: here, node: value as Node }, ...below];
    if (key !== 'properties') return below;
    const own = Object.entries(value as Node).filter(([, part]) => typeof part === 'object');
    return [...own.map(([name, part]) => ({ place: `${here}/${name}`, node: part as Node })), ...below];
  });
}

/** What describes a part: itself, or the definition it refers to. */
function describing(schema: Node, node: Node): Node | undefined {
  if (node.description !== undefined || typeof node.$ref !== 'string') return node;
  return (schema.$defs as Readonly<Record<string, Node>>)[node.$ref.slice('#/$defs/'.length)];
}

describe('the schema files', () => {
  it('are what the source modules say', () => {
    expect(SCHEMA_VERSION).toBe(VERSION);
    const files = readdirSync(path.join(packageFolder, 'schemas', VERSION));
    expect(files.sort()).toEqual(
      Object.keys(schemas)
        .map((name) => `${name}.schema.json`)
        .sort(),
    );
    for (const [name, schema] of Object.entries(schemas)) {
      const file = path.join(packageFolder, 'schemas', VERSION, `${name}.schema.json`);
      expect(readFileSync(file, 'utf8'), name).toBe(`${JSON.stringify(schema, null, 2)}\n`);
    }
  });

  it.each(documentsUnderTest)('are JSON Schema 2020-12 that Ajv takes in strict mode: $name', ({ name, schema }) => {
    const ajv = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, discriminator: true });
    expect(() => ajv.compile(schema)).not.toThrow();
    expect(schema.$id).toBe(`https://commensal.example/schema/${VERSION}/${name}.schema.json`);
  });

  it.each(Object.entries(schemas))('describe every property and every kind of entry of %s', (_, schema) => {
    const parts = describedParts(schema);
    expect(parts.length).toBeGreaterThan(10);
    const bare = parts.filter(({ node }) => !/\S/.test(String(describing(schema, node)?.description ?? '')));
    expect(bare.map(({ place }) => place)).toEqual([]);
    // A number would be taken for a text without a word.
    for (const { node } of parts) expect(typeof (describing(schema, node)?.description ?? '')).toBe('string');
  });

  it.each(['species', 'situation', 'bibliography', 'stand-ins'])(
    'of %s, which people write, say apart what a shared definition is in each place',
    (name) => {
      const schema = schemas[name] ?? {};
      const uses = new Map<string, { readonly place: string; readonly node: Node }[]>();
      for (const part of describedParts(schema)) {
        const { $ref } = part.node;
        if (typeof $ref === 'string') uses.set($ref, [...(uses.get($ref) ?? []), part]);
      }
      const shared = [...uses.values()].filter((places) => places.length > 1).flat();
      expect(uses.size).toBeGreaterThan(1);
      expect(shared.filter(({ node }) => node.description === undefined).map(({ place }) => place)).toEqual([]);
    },
  );
});

describe('what the texts of problems rely on', () => {
  it('every pattern has words', () => {
    const patterns = new Set(having('pattern').map(({ node }) => node.pattern as string));
    expect(patterns.size).toBeGreaterThan(0);
    expect([...patterns].filter((pattern) => patternWords(pattern).includes(pattern))).toEqual([]);
  });

  it('every condition is about the basis', () => {
    const conditions = having('if').map(({ node }) => node.if as Node);
    expect(conditions.length).toBeGreaterThan(0);
    for (const condition of conditions) expect(Object.keys(condition.properties as Node)).toEqual(['basis']);
  });

  it('every choice by kind lists its kinds, so that its own fault can be left out', () => {
    const choices = having('discriminator').map(({ node }) => node);
    expect(choices.length).toBeGreaterThan(0);
    for (const choice of choices) {
      expect(choice.required).toEqual(['kind']);
      const kinds = (choice.properties as { kind: { enum: readonly string[] } }).kind.enum;
      expect(kinds.length).toBe((choice.oneOf as readonly Json[]).length);
    }
  });
});

describe('the validators', () => {
  const files = readdirSync(generated).filter((file) => file.endsWith('-validator.js'));

  it('are there for every document', () => {
    expect(files.length).toBe(Object.keys(schemas).length);
  });

  it.each(files)('%s stands alone and runs under a policy that forbids making code from text', (file) => {
    const code = readFileSync(path.join(generated, file), 'utf8');
    expect(code).not.toMatch(/\beval\b|new Function|\bFunction\(|\brequire\(|\bimport\b|ajv/i);
  });
});
