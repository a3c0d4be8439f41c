import { describe, expect, it } from 'vitest';
import { patched } from '../tools/patch.mjs';
import { constraintsOf, instancesOf } from '../tools/schema-walk.mjs';
import { documentsUnderTest, type Json, type Node } from './documents.js';

/** The pointers at which two documents differ, going no deeper than where one of them is no object or list. */
function differences(a: Json | undefined, b: Json | undefined, pointer = ''): string[] {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null || Array.isArray(a) !== Array.isArray(b)) {
    return a === b ? [] : [pointer];
  }
  // One entry more or less is one difference of the list.
  if (Array.isArray(a) && Array.isArray(b) && a.length !== b.length) return [pointer];
  const [left, right] = [a as Node, b as Node];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].flatMap((key) => differences(left[key], right[key], `${pointer}/${key}`));
}

interface Part {
  readonly location: string;
  readonly node: Json;
}

/** Every property of a schema, save those that another definition describes (`true`) or forbids (`false`). */
function propertiesOf(node: Json, location = '#'): Part[] {
  if (typeof node !== 'object' || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) => {
    const place = `${location}/${key}`;
    // Conditions look at properties that are described elsewhere.
    if (key === 'if' || key === 'then') return [];
    if (key !== 'properties') return propertiesOf(value, place);
    return Object.entries(value as Node).flatMap(([name, part]) =>
      typeof part === 'boolean' ? [] : [{ location: `${place}/${name}`, node: part }, ...propertiesOf(part, `${place}/${name}`)],
    );
  });
}

function enumsOf(node: Json, location = '#'): Part[] {
  if (typeof node !== 'object' || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) => {
    if (key === 'if' || key === 'then') return [];
    if (key === 'enum' && Array.isArray(value)) return [{ location, node: value }];
    return enumsOf(value, `${location}/${key}`);
  });
}

describe.each(documentsUnderTest)(
  'the examples of $name',
  ({ name, schema, problems, positives, constraintNegatives, furtherNegatives }) => {
    const negatives = [...constraintNegatives, ...furtherNegatives];
    const seen = new Map<string, Set<Json>>();
    for (const document of positives.values()) {
      for (const [location, instances] of instancesOf(schema, document) as Map<string, { value: Json }[]>) {
        const values = seen.get(location) ?? new Set();
        for (const { value } of instances) values.add(value);
        seen.set(location, values);
      }
    }
    const positive = (file: string): Json => {
      const document = positives.get(file);
      if (document === undefined) throw new Error(`${name}: a negative example starts from ${file}, which is not there`);
      return document;
    };

    it('has positive examples, and none has a problem', () => {
      expect(positives.size).toBeGreaterThan(0);
      for (const [file, document] of positives) expect(problems(document), file).toEqual([]);
    });

    it('uses every property of the schema in a positive example', () => {
      const properties = propertiesOf(schema).map(({ location }) => location);
      expect(properties.length).toBeGreaterThan(0);
      expect(properties.filter((location) => !seen.has(location))).toEqual([]);
    });

    it('uses every word of every list in a positive example', () => {
      const words = enumsOf(schema).flatMap(({ location, node }) => (node as readonly Json[]).map((word) => ({ location, word })));
      expect(words.length).toBeGreaterThan(0);
      expect(words.filter(({ location, word }) => !seen.get(location)?.has(word))).toEqual([]);
    });

    it('has one negative example for every constraint of the schema', () => {
      const constraints = constraintsOf(schema).map(({ location }: { location: string }) => location);
      expect(constraints.length).toBeGreaterThan(0);
      expect(constraintNegatives.map(({ breaks }) => breaks)).toEqual(constraints);
    });

    it('has negative examples for what the schema cannot say', () => {
      expect(furtherNegatives.length).toBeGreaterThan(0);
    });

    it('changes one place for each negative example', () => {
      for (const { breaks, from, patch } of negatives) {
        const document = positive(from);
        const changed = differences(document, patched(document, patch) as Json);
        // A kind and a name tell entries apart together: the example changes both.
        expect(changed.length, breaks).toBe(patch.length);
      }
      expect(negatives.filter(({ patch }) => patch.length > 1).length).toBeLessThan(2);
    });

    it.each(negatives)('finds just what breaks: $breaks', ({ from, patch, code, pointer }) => {
      const found = problems(patched(positive(from), patch));
      expect(found.map((problem) => ({ code: problem.code, pointer: problem.pointer }))).toEqual([{ code, pointer }]);
      for (const { found: clause, allowed, fix } of found) {
        for (const text of [clause, allowed, fix]) expect(text).not.toMatch(/undefined|\[object|NaN|^\s*$/);
      }
    });
  },
);
