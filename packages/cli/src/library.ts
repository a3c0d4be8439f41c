import { readdirSync } from 'node:fs';
import path from 'node:path';
import { distance } from 'fastest-levenshtein';
import { type Library, libraryOf } from '@commensal/core';
import { type Problem, type SpeciesRecord, speciesProblems } from '@commensal/schema';
import { records, release, standIns } from '@commensal/species-sample';
import { badCall, BadInput } from './failure.js';
import { readDocument } from './read-document.js';

/** The sample that ships inside, or the records of a folder. Stand-ins always come from the sample. */
export function openLibrary(folder: string | undefined): Library {
  return folder === undefined ? libraryOf(records, standIns, release) : libraryOf(recordsIn(folder), standIns, path.basename(path.resolve(folder)));
}

function recordsIn(folder: string): SpeciesRecord[] {
  const files = recordFiles(folder);
  if (files.length === 0) {
    throw badCall('no-records', `"${folder}" holds no species records`, 'files that end in .species.json', 'Name the folder that holds them, or one above it.');
  }
  const byId = new Map<string, { record: SpeciesRecord; file: string }>();
  const problems: Problem[] = [];
  for (const file of files) {
    try {
      const { document: record } = readDocument<SpeciesRecord>(file, speciesProblems);
      const twin = byId.get(record.id);
      if (twin === undefined) byId.set(record.id, { record, file });
      else problems.push({ code: 'duplicate-id', pointer: '/id', file, found: `"${record.id}" is also the id in ${twin.file}`, allowed: 'every id once', fix: 'Keep one of the two records.' });
    } catch (error) {
      if (!(error instanceof BadInput)) throw error;
      problems.push(...error.problems);
    }
  }
  if (problems.length > 0) throw new BadInput(problems);
  return [...byId.values()].map(({ record }) => record);
}

function recordFiles(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.species.json'))
      .sort()
      .map((name) => path.join(folder, name));
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why = code === 'ENOENT' ? 'does not exist' : code === 'ENOTDIR' ? 'is no folder' : `cannot be read (${code})`;
    throw badCall('no-such-folder', `"${folder}" ${why}`, 'a folder of species records', 'Check the name.');
  }
}

/** Most names that are offered for one that is not known. */
const MOST_SUGGESTIONS = 3;

/** An unknown species with the nearest names there are, by id and by what people call it. */
export function withNearest(problem: Problem, species: string, library: Library): Problem {
  const wanted = species.toLowerCase();
  const ranked = [...library.records.values()]
    .map((record) => {
      const names = [record.id, record.taxon.scientificName.toLowerCase(), ...record.vernacularNames.map((name) => name.name.toLowerCase().replaceAll(' ', '-'))];
      return { record, off: Math.min(...names.map((name) => distance(wanted, name) / Math.max(wanted.length, name.length))) };
    })
    .sort((one, other) => one.off - other.off || (one.record.id < other.record.id ? -1 : 1));
  const near = ranked.filter(({ off }, index) => index < MOST_SUGGESTIONS && off <= 0.5);
  const genus = ranked.filter(({ record }) => near.length === 0 && record.taxon.genus.toLowerCase() === wanted.split('-')[0]).slice(0, MOST_SUGGESTIONS);
  const offered = [...near, ...genus].map(({ record }) => `${record.id} (${record.vernacularNames[0]?.name ?? record.taxon.scientificName})`);
  return {
    ...problem,
    found: `no record has the id "${species}"`,
    allowed: `one of the ${library.records.size} records at hand`,
    fix: offered.length > 0 ? `Did you mean ${offered.join(' or ')}?` : 'Write the id as genus and species in lower case with a hyphen, or name a folder of records with --species.',
  };
}
