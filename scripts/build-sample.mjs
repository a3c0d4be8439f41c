/**
 * From the records to what is imported: one module with everything (for the command line and tests), and one module a species,
 * so that importing one species costs one species.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const packageFolder = path.join(path.dirname(fileURLToPath(import.meta.url)), '../packages/species-sample');
const generated = path.join(packageFolder, 'src/generated');
const modules = path.join(packageFolder, 'dist/species');

const readJson = (file) => JSON.parse(readFileSync(file, 'utf8'));

/** Files of all records, in the order of their ids. */
export function recordFiles() {
  const folder = path.join(packageFolder, 'records');
  return readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.species.json'))
    .map((name) => path.join(folder, name))
    .sort((one, other) => (path.basename(one) < path.basename(other) ? -1 : 1));
}

/** A JSON text parses faster than a literal of the same size, and an unused one is dropped from a bundle. */
const parsed = (value) => `/* @__PURE__ */ JSON.parse(${JSON.stringify(JSON.stringify(value))})`;

export function buildSample() {
  const records = recordFiles().map(readJson);
  if (records.length === 0) throw new Error('no species records found');
  mkdirSync(generated, { recursive: true });
  mkdirSync(modules, { recursive: true });
  const constants = {
    records: ['readonly SpeciesRecord[]', records],
    bibliography: ['Bibliography', readJson(path.join(packageFolder, 'bibliography.json'))],
    standIns: ['StandIns', readJson(path.join(packageFolder, 'stand-ins.json'))],
    release: ['string', readJson(path.join(packageFolder, 'package.json')).commensal.release],
  };
  writeFileSync(
    path.join(generated, 'sample.js'),
    Object.entries(constants)
      .map(([name, [, value]]) => `export const ${name} = ${parsed(value)};\n`)
      .join(''),
  );
  writeFileSync(
    path.join(generated, 'sample.d.ts'),
    `import type { Bibliography, SpeciesRecord, StandIns } from '@commensal/schema';\n${Object.entries(constants)
      .map(([name, [type]]) => `export declare const ${name}: ${type};\n`)
      .join('')}`,
  );
  for (const record of records) {
    writeFileSync(path.join(modules, `${record.id}.js`), `export const record = ${JSON.stringify(record)};\n`);
    writeFileSync(
      path.join(modules, `${record.id}.d.ts`),
      "import type { SpeciesRecord } from '@commensal/schema';\nexport declare const record: SpeciesRecord;\n",
    );
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) buildSample();
