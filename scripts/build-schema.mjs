/**
 * From the schema source modules: the published JSON Schema files, the TypeScript types and the
 * precompiled validators. Everything but the JSON files lands in `generated/`, which is not in git.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import standalone from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';
import { compile } from 'json-schema-to-typescript';
import { documents, VERSION } from '../packages/schema/source/index.js';

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

/** What a validator does not need is left out of it. */
function forValidation(node) {
  if (Array.isArray(node)) return node.map(forValidation);
  if (node === null || typeof node !== 'object') return node;
  const out = {};
  for (const [key, value] of Object.entries(node)) {
    if ((key === 'description' || key === 'title') && typeof value === 'string') continue;
    out[key] = key === 'properties' || key === '$defs' ? Object.fromEntries(Object.entries(value).map(([name, part]) => [name, forValidation(part)])) : forValidation(value);
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

async function validatorOf(schema) {
  const ajv = new Ajv2020({
    strict: true,
    strictRequired: false,
    strictTypes: false,
    allErrors: true,
    verbose: false,
    discriminator: true,
    messages: false,
    inlineRefs: false,
    code: { source: true, esm: true, optimize: 2 },
  });
  const code = standalone.default(ajv, ajv.compile(forValidation(schema)));
  const result = await build({
    stdin: { contents: code, resolveDir: root, loader: 'js' },
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
  });
  return result.outputFiles[0].text;
}

export async function buildSchema() {
  mkdirSync(schemaFolder, { recursive: true });
  mkdirSync(generated, { recursive: true });
  for (const [name, schema] of Object.entries(documents)) {
    writeFileSync(path.join(schemaFolder, `${name}.schema.json`), fileText(schema));
    writeFileSync(path.join(generated, `${name}.ts`), await typesOf(name, schema));
    writeFileSync(path.join(generated, `${name}-validator.js`), await validatorOf(schema));
    writeFileSync(
      path.join(generated, `${name}-validator.d.ts`),
      "import type { ValidationFault } from '../validation-fault.js';\nexport declare const validate: {\n  (data: unknown): boolean;\n  errors?: readonly ValidationFault[] | null;\n};\nexport default validate;\n",
    );
  }
  writeFileSync(path.join(generated, 'version.ts'), `export const SCHEMA_VERSION: string = '${VERSION}';\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildSchema();
  const sizes = Object.keys(documents).map((name) => `${name} ${readFileSync(path.join(generated, `${name}-validator.js`)).length}`);
  console.log(`schema ${VERSION}: ${sizes.join(', ')} bytes of validators`);
}
