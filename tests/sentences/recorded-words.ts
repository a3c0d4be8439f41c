/** What a record can hold under the fields that rules need: parts and words, as the schema lists them. */
import { textOf } from '../support/repository.js';
import { allRules } from './keys.js';

interface Shape {
  readonly $ref?: string;
  readonly type?: string;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Shape | boolean>>;
  readonly items?: Shape;
}

const schema: Shape & { readonly $defs: Readonly<Record<string, Shape>> } = JSON.parse(
  textOf('packages/schema/schemas/1.0/species.schema.json'),
);

/** A part of the schema, its reference followed. */
function resolved(shape: Shape): Shape {
  if (shape.$ref === undefined) return shape;
  const part = schema.$defs[shape.$ref.split('/').at(-1) ?? ''];
  if (part === undefined) throw new Error(`the schema has no part ${shape.$ref}`);
  return resolved(part);
}

const properties = (shape: Shape): [name: string, part: Shape][] =>
  Object.entries(resolved(shape).properties ?? {}).flatMap(([name, part]): [string, Shape][] =>
    typeof part === 'boolean' ? [] : [[name, part]],
  );

/** Whether the schema says of a part what it rests on. */
const isGrounded = (shape: Shape): boolean => 'basis' in (resolved(shape).properties ?? {}) || resolved(shape).items !== undefined;

const at = (field: string): Shape | undefined =>
  field.split('.').reduce<Shape | undefined>((shape, name) => {
    const part = shape === undefined ? undefined : resolved(shape).properties?.[name];
    return typeof part === 'boolean' ? undefined : part;
  }, schema);

/** A field, and those of its own where it is a group. */
const apart = (field: string, shape: Shape): string[] =>
  isGrounded(shape) ? [field] : [field, ...properties(shape).flatMap(([name, part]) => apart(`${field}.${name}`, part))];

/** The fields of a record that some rule needs; the greatest length stands in where the final one is missing. */
export const fieldsOfRecords: readonly string[] = [
  ...new Set(
    [...allRules.flatMap(({ needs }) => needs), 'size.maximum'].flatMap((need) => {
      const shape = at(need);
      return shape === undefined ? [] : apart(need, shape);
    }),
  ),
];

/** How a figure is to be read and what it rests on; and parts that need no name, as their field says what they are. */
const UNNAMED = new Set([
  ...['basis', 'source', 'formula', 'from', 'searched', 'note', 'unit', 'low', 'high', 'interval', 'lengthType', 'per', 'at'],
  ...['value', 'list', 'foods', 'food', 'species', 'kind', 'how', 'what', 'harm', 'often'],
]);

const entryOf = (field: string): Shape => {
  const shape = resolved(at(field) ?? {});
  return resolved(shape.items ?? shape);
};

/** The parts of a field that go by a name. */
export const partsOf = (field: string): string[] =>
  isGrounded(at(field) ?? {})
    ? properties(entryOf(field))
        .map(([name]) => name)
        .filter((name) => !UNNAMED.has(name))
    : [];

const wordsIn = (shape: Shape): string[] => {
  const { enum: own = [], items } = resolved(shape);
  return [...own.filter((word): word is string => typeof word === 'string'), ...(items === undefined ? [] : wordsIn(items))];
};

/** Parts whose words are said otherwise than one by one. */
const ASIDE = new Set(['basis', 'from', 'unit', 'interval', 'lengthType', 'per', 'at']);

/** The words that a field can hold. */
export const wordsOf = (field: string): string[] =>
  isGrounded(at(field) ?? {})
    ? properties(entryOf(field))
        .filter(([name]) => !ASIDE.has(name))
        .flatMap(([, part]) => wordsIn(part))
    : [];
