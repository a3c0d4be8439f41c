/**
 * From the records to what is imported: one module with everything (for the command line and tests), one module a species,
 * so that importing one species costs one species, and an index to choose from without loading any.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const packageFolder = path.join(path.dirname(fileURLToPath(import.meta.url)), '../packages/species-sample');
const generated = path.join(packageFolder, 'src/generated');
const modules = path.join(packageFolder, 'dist/species');

const index = path.join(packageFolder, 'dist/index.json');

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

/** What tells one species from another, a line a species, in the order of their ids. */
function indexOf(files) {
  const lines = files.map((file) => {
    const { id, taxon, vernacularNames, addedIn } = readJson(file);
    const name = vernacularNames.find(({ language }) => language.split('-')[0] === 'en')?.name;
    const inPackage = path.relative(packageFolder, file).split(path.sep).join('/');
    return JSON.stringify({ id, scientificName: taxon.scientificName, family: taxon.family, name, release: addedIn, file: inPackage });
  });
  return `[\n${lines.join(',\n')}\n]\n`;
}

export function buildSample() {
  const files = recordFiles();
  const records = files.map(readJson);
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
  writeFileSync(index, indexOf(files));
  for (const record of records) {
    writeFileSync(path.join(modules, `${record.id}.js`), `export const record = ${JSON.stringify(record)};\n`);
    writeFileSync(
      path.join(modules, `${record.id}.d.ts`),
      "import type { SpeciesRecord } from '@commensal/schema';\nexport declare const record: SpeciesRecord;\n",
    );
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) buildSample();
