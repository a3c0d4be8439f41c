import { expect, test } from 'vitest';
import { textOf } from '../../../../tests/support/repository.js';
import { FIELDS } from './fields.js';

interface Shape {
  readonly $ref?: string;
  readonly properties?: Readonly<Record<string, Shape | boolean>>;
  readonly items?: Shape;
}

const schema: Shape & { readonly $defs: Readonly<Record<string, Shape>> } = JSON.parse(
  textOf('packages/schema/schemas/1.0/species.schema.json'),
);

const resolved = (shape: Shape): Shape =>
  shape.$ref === undefined ? shape : resolved(schema.$defs[shape.$ref.split('/').at(-1) ?? ''] ?? {});

/** All places of the schema that have a basis, a list standing for its entries. */
function groundedFields(shape: Shape, path = ''): string[] {
  const { properties = {}, items } = resolved(shape);
  if (items !== undefined) return groundedFields(items, path);
  if ('basis' in properties) return [path];
  return Object.entries(properties).flatMap(([name, part]) =>
    typeof part === 'boolean' ? [] : groundedFields(part, path === '' ? name : `${path}.${name}`),
  );
}

test('the fields are those that have a basis in the schema, in its order', () => {
  const fields = groundedFields(schema).filter((field) => !field.endsWith('Elsewhere'));
  expect(fields.length).toBeGreaterThan(50);
  expect(FIELDS).toEqual(fields);
});
