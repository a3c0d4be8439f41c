/**
 * Writes `examples/<document>/negative/constraints.json`: for every constraint of a schema one change of a positive
 * example that breaks it and nothing else, with the problem that must come of it. An entry that is there already
 * is kept as it is, for its code and pointer have been read and agreed to; delete it to have it made anew.
 *
 *   node packages/schema/tools/make-negative-examples.mjs
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { documents } from '../source/index.js';
import { constraintsOf, instancesOf } from './schema-walk.mjs';

const examples = path.join(import.meta.dirname, '..', 'examples');
const readJson = (file) => JSON.parse(readFileSync(file, 'utf8'));

function positivesOf(name) {
  const folder = path.join(examples, name, 'positive');
  // The richest examples first, so that most changes are made to the same few files.
  return readdirSync(folder)
    .filter((file) => file.endsWith('.json'))
    .map((file) => ({ from: file, document: readJson(path.join(folder, file)) }))
    .sort((a, b) => JSON.stringify(b.document).length - JSON.stringify(a.document).length);
}

const parentOf = (location, levels = 1) => location.split('/').slice(0, -levels).join('/');
const lastOf = (location) => location.slice(location.lastIndexOf('/') + 1);

const replace = (pointer, value, more = {}) => ({ patch: [{ op: 'replace', path: pointer, value, ...more }], pointer });

/** Something of another type than the schema wants. */
function otherType({ type, enum: words, const: constant, maximum }, right) {
  const value = {
    string: 7,
    number: 'seven',
    integer: right === maximum ? right - 0.5 : right + 0.5,
    boolean: 'yes',
    array: 'none',
    object: 'none',
  }[type];
  const code = words ? 'not-in-list' : constant === undefined ? 'wrong-type' : 'wrong-value';
  return { value, code };
}

/** How to break a constraint at one place where it speaks: code, pointer and patch, or undefined where it cannot be broken there alone. */
const BREAK = {
  type: ({ node }, { pointer, value }) => {
    const wrong = otherType(node, value);
    return { code: wrong.code, ...replace(pointer, wrong.value) };
  },
  enum: (_, { pointer }) => ({ code: 'not-in-list', ...replace(pointer, 'no-such-word') }),
  const: (_, { pointer }) => ({ code: 'wrong-value', ...replace(pointer, 'something else') }),
  pattern: (_, { pointer, value }) => (typeof value === 'string' ? { code: 'wrong-form', ...replace(pointer, '!') } : undefined),
  minimum: ({ node }, { pointer }) => ({ code: 'too-small', ...replace(pointer, node.minimum - 1) }),
  exclusiveMinimum: ({ node }, { pointer }) => ({ code: 'too-small', ...replace(pointer, node.exclusiveMinimum) }),
  maximum: ({ node }, { pointer }) => ({ code: 'too-large', ...replace(pointer, node.maximum + 1) }),
  minLength: (_, { pointer }) => ({ code: 'too-short', ...replace(pointer, '') }),
  maxLength: ({ node }, { pointer, value }) => {
    if (!node.pattern) return { code: 'too-long', ...replace(pointer, 'a', { times: node.maxLength + 1 }) };
    const long = value.padEnd(node.maxLength + 1, 'a');
    return new RegExp(node.pattern, 'u').test(long) ? { code: 'too-long', ...replace(pointer, long) } : undefined;
  },
  minItems: ({ node }, { pointer, value }) => ({ code: 'too-few', ...replace(pointer, value.slice(0, node.minItems - 1)) }),
  maxItems: ({ node }, { pointer, value }) =>
    value.length > 0 ? { code: 'too-many', ...replace(pointer, value.slice(0, 1), { times: node.maxItems + 1 }) } : undefined,
  minProperties: (_, { pointer, value }) => (Object.keys(value).length === 1 ? { code: 'too-few', ...replace(pointer, {}) } : undefined),
  uniqueItems: (_, { pointer, value }) =>
    value.length > 0
      ? { code: 'duplicate-item', pointer: `${pointer}/${value.length}`, patch: [{ op: 'add', path: `${pointer}/-`, value: value[0] }] }
      : undefined,
  additionalProperties: (_, { pointer }) => {
    const path = `${pointer}/unheardOf`;
    return { code: 'unknown-property', pointer: path, patch: [{ op: 'add', path, value: true }] };
  },
  required: ({ node, location }, { pointer }) => ({
    code: location.includes('/then/') ? 'needs-also' : 'missing-property',
    pointer,
    patch: [{ op: 'remove', path: `${pointer}/${node.required[Number(lastOf(location))]}` }],
  }),
  dependentRequired: ({ node, location }, { pointer, value }) => {
    const name = lastOf(parentOf(location));
    const needed = node.dependentRequired[name][Number(lastOf(location))];
    if (value[name] === undefined) return undefined;
    // Taking away what others need as well would break their need, too.
    const others = Object.entries(node.dependentRequired).some(
      ([other, needs]) => other !== name && needs.includes(needed) && value[other] !== undefined,
    );
    return others ? undefined : { code: 'needs-also', pointer, patch: [{ op: 'remove', path: `${pointer}/${needed}` }] };
  },
  anyOf: ({ node }, { pointer, value }) => {
    const names = node.anyOf.map((branch) => branch.required?.[0]);
    if (names.includes(undefined)) return { code: 'wrong-type', ...replace(pointer, 5) };
    const given = names.filter((name) => value[name] !== undefined);
    if (given.length !== 1 || given[0] === 'low') return undefined;
    return {
      code: names.includes('value') ? 'no-number' : 'needs-one-of',
      pointer,
      patch: [{ op: 'remove', path: `${pointer}/${given[0]}` }],
    };
  },
};

/** What is not allowed is nowhere in a positive example: it is added where its parent stands. */
const FORBIDDEN = { source: 'invented-2020', formula: 'one over the other', from: 'genus' };
function breakFalse({ location }, { pointer, value }) {
  const name = lastOf(location);
  if (value[name] !== undefined) return undefined;
  const path = `${pointer}/${name}`;
  return { code: 'not-allowed-here', pointer: path, patch: [{ op: 'add', path, value: FORBIDDEN[name] }] };
}

function breakPropertyName(_, { pointer }) {
  const path = `${pointer}/Not a vendor`;
  return { code: 'wrong-form', pointer: path, patch: [{ op: 'add', path, value: true }] };
}

/** Where low and high are, `interval` may be as well: a part of a band is broken by adding it where there is only a value. */
function breakByAdding({ node, location }, { pointer, value }) {
  const name = lastOf(parentOf(location));
  const needed = node.dependentRequired[name][Number(lastOf(location))];
  if (typeof value.value !== 'number' || value[name] !== undefined || value[needed] !== undefined) return undefined;
  return {
    code: 'needs-also',
    pointer,
    patch: [{ op: 'add', path: `${pointer}/${name}`, value: name === 'interval' ? 'range' : value.value }],
  };
}

function waysToBreak(constraint) {
  const { location, keyword } = constraint;
  if (keyword === 'false') return { place: parentOf(location, 2), ways: [breakFalse] };
  if (location.includes('/propertyNames/')) return { place: parentOf(location), ways: [breakPropertyName] };
  if (keyword === 'required') return { place: parentOf(location, 2), ways: [BREAK.required] };
  if (keyword === 'dependentRequired') return { place: parentOf(location, 3), ways: [breakByAdding, BREAK.dependentRequired] };
  return { place: parentOf(location), ways: [BREAK[keyword]] };
}

function exampleFor(constraint, positives) {
  const { place, ways } = waysToBreak(constraint);
  for (const way of ways) {
    for (const { from, instances } of positives) {
      for (const instance of instances.get(place) ?? []) {
        const broken = way(constraint, instance);
        if (broken) return { breaks: constraint.location, from, patch: broken.patch, code: broken.code, pointer: broken.pointer };
      }
    }
  }
  throw new Error(`make-negative-examples: no positive example has a place where ${constraint.location} can be broken`);
}

for (const [name, schema] of Object.entries(documents)) {
  const file = path.join(examples, name, 'negative', 'constraints.json');
  const kept = new Map(existsSync(file) ? readJson(file).map((example) => [example.breaks, example]) : []);
  const positives = positivesOf(name).map(({ from, document }) => ({ from, instances: instancesOf(schema, document) }));
  const made = constraintsOf(schema).map((constraint) => kept.get(constraint.location) ?? exampleFor(constraint, positives));
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, `[\n${made.map((example) => `  ${JSON.stringify(example)}`).join(',\n')}\n]\n`);
  console.log(`${name}: ${made.length} negative examples, ${made.filter((example) => !kept.has(example.breaks)).length} of them new`);
}
