/**
 * From the schema source modules: the published JSON Schema files, the TypeScript types and the
 * precompiled validators. Everything but the JSON files lands in `generated/`, which is not in git.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { compile } from 'json-schema-to-typescript';
import { documents, VERSION } from '../packages/schema/source/index.js';
import { validatorCode } from './validator-code.mjs';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..');
const schemaFolder = path.join(root, 'packages/schema/schemas', VERSION);
const generated = path.join(root, 'packages/schema/src/generated');

export const fileText = (schema) => `${JSON.stringify(schema, null, 2)}\n`;

const CONDITIONS = ['dependentRequired', 'discriminator', 'minProperties', 'allOf', 'minItems', 'maxItems', 'pattern', '$id'];

/** The type generator takes conditions for intersections; types need only the properties. */
function forTypes(node, definitions) {
  if (Array.isArray(node)) return node.map((item) => forTypes(item, definitions));
  if (node === null || typeof node !== 'object') return node;
  const out = {};
  for (const [key, value] of Object.entries(node)) {
    if (CONDITIONS.includes(key) && !(key === 'pattern' && typeof value === 'object')) continue;
    if (key === 'anyOf' && value.every((branch) => Object.keys(branch).join() === 'required')) continue;
    // The branches say what each kind holds.
    if (key === 'properties' && node.discriminator !== undefined) continue;
    if (key === 'properties') {
      out.properties = {};
      for (const [name, property] of Object.entries(value)) {
        out.properties[name] = property === true ? definitions.grounds.properties[name] : forTypes(property, definitions);
      }
    } else {
      out[key] = forTypes(value, definitions);
    }
  }
  return out;
}

async function typesOf(name, schema) {
  return compile(forTypes(schema, schema.$defs), name, {
    additionalProperties: false,
    bannerComment: '/* Generated from the schema by `npm run schema`; do not edit. */',
    declareExternallyReferenced: true,
    unreachableDefinitions: false,
    format: false,
    style: { singleQuote: true },
  });
}

/** The properties of a schema in its order, objects within objects; lists are as their items. */
export function keyOrderOf(schema) {
  const below = (node) => {
    if (node === true || node === false) return null;
    if (node.$ref !== undefined) return below(schema.$defs[node.$ref.slice('#/$defs/'.length)]);
    if (node.items !== undefined) return below(node.items);
    if (node.oneOf !== undefined) throw new Error('keyOrderOf: expected objects of one kind, received a choice among kinds');
    if (node.properties === undefined) return null;
    return Object.fromEntries(Object.entries(node.properties).map(([name, part]) => [name, below(part)]));
  };
  return below(schema);
}

const keysModule = (name, schema) =>
  `import type { KeyOrder } from '../key-order.js';\n\n/** Generated from the schema by \`npm run schema\`; do not edit. */\nexport const ${name}Keys: KeyOrder = ${JSON.stringify(keyOrderOf(schema))};\n`;

export async function buildSchema() {
  mkdirSync(schemaFolder, { recursive: true });
  mkdirSync(generated, { recursive: true });
  for (const [name, schema] of Object.entries(documents)) {
    writeFileSync(path.join(schemaFolder, `${name}.schema.json`), fileText(schema));
    writeFileSync(path.join(generated, `${name}.ts`), await typesOf(name, schema));
    writeFileSync(path.join(generated, `${name}-validator.js`), await validatorCode(schema));
    writeFileSync(
      path.join(generated, `${name}-validator.d.ts`),
      "import type { ValidationFault } from '../validation-fault.js';\nexport declare const validate: {\n  (data: unknown): boolean;\n  errors?: readonly ValidationFault[] | null;\n};\n",
    );
  }
  writeFileSync(path.join(generated, 'species-keys.ts'), keysModule('species', documents.species));
  writeFileSync(path.join(generated, 'version.ts'), `export const SCHEMA_VERSION: string = '${VERSION}';\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildSchema();
  const sizes = Object.keys(documents).map((name) => `${name} ${readFileSync(path.join(generated, `${name}-validator.js`)).length}`);
  console.log(`schema ${VERSION}: ${sizes.join(', ')} bytes of validators`);
}
