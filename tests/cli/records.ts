/** Records for the tests of `commensal records`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { SpeciesRecord } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import { folder } from './command.js';

/** A record of the sample, to be changed by the test. */
export function sampleRecord(id = 'gramma-loreto'): SpeciesRecord {
  const found = records.find((record) => record.id === id);
  if (found === undefined) throw new Error(`sampleRecord: expected the id of a record of the sample, received "${id}"`);
  return structuredClone(found);
}

/** The text of a record as it should be. */
export const textOfRecord = (record: unknown): string => `${JSON.stringify(record, null, 2)}\n`;

/** Puts a text below the folder of the tests, and returns its name from there. */
export function put(name: string, text: string | Buffer): string {
  mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
  writeFileSync(path.join(folder, name), text);
  return name;
}

/** A record of the sample in a folder, changed as the test says; returns the name of its file. */
export function putRecord(place: string, id = 'gramma-loreto', change: (text: string) => string = (text) => text): string {
  return put(`${place}/${id}.species.json`, change(textOfRecord(sampleRecord(id))));
}

/** Invented species, each a copy of one of the sample under a name of its own. */
export function putMany(place: string, count: number, change: (text: string) => string = (text) => text): string {
  for (let index = 0; index < count; index += 1) {
    const { synonyms: _, ...record } = structuredClone(records[index % records.length]) as SpeciesRecord;
    const species = `inventa${[...String(index)].map((digit) => 'abcdefghij'[Number(digit)]).join('')}`;
    const { taxonID: __, ...taxon } = { ...record.taxon, scientificName: `${record.taxon.genus} ${species}` };
    const id = `${taxon.genus.toLowerCase()}-${species}`;
    put(`${place}/${taxon.family.toLowerCase()}/${id}.species.json`, change(textOfRecord({ ...record, id, taxon })));
  }
  return place;
}
