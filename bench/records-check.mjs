/** `commensal records check` over ten thousand records on disk, against reading and parsing the same files and nothing else. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { records } from '@commensal/species-sample';
import { goalRow, heading, row } from './table.mjs';

const MANY = 10_000;
const ROUNDS = 3;

/** What has to be done in any case. */
const BARE = `import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
const folder = process.argv[1];
let count = 0;
for (const name of readdirSync(folder, { recursive: true }).filter((file) => file.endsWith('.json'))) {
  if (JSON.parse(readFileSync(path.join(folder, name), 'utf8')).id) count += 1;
}
if (count !== ${MANY}) throw new Error('read ' + count);`;

const letters = (number) => [...String(number)].map((digit) => 'abcdefghij'[digit]).join('');

/** Species that name no other: what they name would have no record among the copies. */
const plain = records.filter((record) => !/"(partners|resembles|replacedBy)"/.test(JSON.stringify(record)));

/** Invented species, each a copy of one of the sample under a name of its own. */
function write(folder, spoil) {
  for (let index = 0; index < MANY; index += 1) {
    const record = plain[index % plain.length];
    const species = `inventa${letters(index)}`;
    const { genus } = record.taxon;
    const id = `${genus.toLowerCase()}-${species}`;
    const copy = { ...record, id, taxon: { ...record.taxon, scientificName: `${genus} ${species}` } };
    // Names and numbers of the one it was copied from would make it a double of that.
    delete copy.taxon.taxonID;
    delete copy.synonyms;
    const place = path.join(folder, copy.taxon.family.toLowerCase());
    mkdirSync(place, { recursive: true });
    writeFileSync(path.join(place, `${id}.species.json`), spoil(`${JSON.stringify(copy, null, 2)}\n`));
  }
}

function secondsOf(args, allowed = [0]) {
  const from = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', maxBuffer: 2 ** 28 });
  if (!allowed.includes(status)) throw new Error(`bench: ${args.join(' ')} ended with ${status}: ${stderr}`);
  return (performance.now() - from) / 1000;
}

const median = (times) => times.sort((one, other) => one - other)[Math.floor(times.length / 2)];

export function benchRecordsCheck(root) {
  const command = path.join(root, 'packages/cli/dist/commensal.js');
  const kinds = {
    'in order': { spoil: (text) => text, atMost: 12 },
    'with CR LF': { spoil: (text) => text.replaceAll('\n', '\r\n'), atMost: 25 },
    'with a mistake each': { spoil: (text) => text.replace('"unit": "cm"', '"unit": "inch"'), atMost: 20 },
  };
  heading(`commensal records check, ${MANY} records on disk`);
  for (const [name, { spoil, atMost }] of Object.entries(kinds)) {
    const folder = mkdtempSync(path.join(tmpdir(), 'commensal-bench-'));
    try {
      write(folder, spoil);
      const [bare, checked] = [[], []];
      for (let round = 0; round < ROUNDS; round += 1) {
        bare.push(secondsOf(['--input-type=module', '-e', BARE, folder]));
        checked.push(secondsOf([command, 'records', 'check', folder, '--format', 'json'], [0, 1]));
      }
      row(`${name}: read and JSON.parse / check`, `${median(bare).toFixed(2)} s / ${median(checked).toFixed(2)} s`);
      goalRow(`${name}: check over reading and parsing`, median(checked) / median(bare), { atMost });
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
}
