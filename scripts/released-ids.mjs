/**
 * Adds the ids of all records to `packages/species-sample/released-ids.json`: to be run when the data is released, and at no other time.
 * Ids of earlier releases stay for ever; a test fails where one of them has no record.
 *
 *   node scripts/released-ids.mjs
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { recordFiles } from './build-sample.mjs';
import { root } from './fingerprint.mjs';

const file = path.join(root, 'packages/species-sample/released-ids.json');

const released = new Map(existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).map((entry) => [entry.id, entry]) : []);
const before = released.size;
for (const name of recordFiles()) {
  const { id, addedIn } = JSON.parse(readFileSync(name, 'utf8'));
  if (!released.has(id)) released.set(id, { id, addedIn });
}
const entries = [...released.values()].sort((one, other) => (one.id < other.id ? -1 : 1));
writeFileSync(file, `[\n${entries.map((entry) => `  ${JSON.stringify(entry)}`).join(',\n')}\n]\n`);
process.stdout.write(`${entries.length} released ids, ${entries.length - before} of them new\n`);
