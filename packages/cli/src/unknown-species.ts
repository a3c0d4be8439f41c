import type { Library } from '@commensal/core';
import { recordOf } from '@commensal/core';
import type { Problem, SpeciesRecord } from '@commensal/schema';
import { distance } from 'fastest-levenshtein';
import { either } from './words.js';

/** A place of a situation that names a species. */
interface Mention {
  readonly pointer: string;
  readonly place: string;
  readonly species: string;
}

const member = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[key] : undefined;

const entriesOf = (value: unknown): [number, unknown][] => (Array.isArray(value) ? [...value.entries()] : []);

function mentionsIn(list: unknown, pointer: string, place: string): Mention[] {
  return entriesOf(list).flatMap(([index, entry]) => {
    const species = member(entry, 'species');
    return typeof species === 'string' ? [{ pointer: `${pointer}/${index}/species`, place: `${place}[${index}].species`, species }] : [];
  });
}

/** The document need not be valid: an unknown species is told beside what else is wrong. */
const mentionsOf = (data: unknown): Mention[] => [
  ...mentionsIn(member(data, 'residents'), '/residents', 'residents'),
  ...mentionsIn(member(data, 'wishes'), '/wishes', 'wishes'),
  ...entriesOf(member(data, 'introductions')).flatMap(([index, introduction]) =>
    mentionsIn(member(introduction, 'animals'), `/introductions/${index}/animals`, `introductions[${index}].animals`),
  ),
];

/** A problem for every species that no record is about, with the nearest names there are. */
export function unknownSpecies(data: unknown, library: Library): Problem[] {
  return mentionsOf(data)
    .filter(({ species }) => recordOf(library, species) === undefined)
    .map(({ pointer, place, species }) => ({
      code: 'unknown-species',
      pointer,
      found: `${place} is ${JSON.stringify(species)}`,
      allowed: `none of the ${library.records.size} records at hand has this id`,
      fix: fixFor(species, library),
    }));
}

/** What to do about a species that no record is about. */
export function fixFor(species: string, library: Library): string {
  const near = nearestTo(species, library).map(
    ({ id, taxon, vernacularNames }) => `${id} (${vernacularNames[0]?.name ?? taxon.scientificName})`,
  );
  return near.length > 0
    ? `Did you mean ${either(near)}?`
    : 'Write genus and species in small letters, joined by a hyphen, or name another folder of records with --species.';
}

/** Most names that are offered for one that is not known. */
const MOST_OFFERED = 5;

/** Share of letters by which a name may be off, and by which one may be further off than the nearest. */
const FARTHEST = 0.4;
const BESIDE_NEAREST = 0.1;

/** The records whose id, scientific or common name comes nearest; the others of a genus where none is near. */
function nearestTo(species: string, library: Library): SpeciesRecord[] {
  const wanted = folded(species);
  const ranked = [...library.records.values()]
    .map((record) => ({ record, off: Math.min(...namesOf(record).map((name) => offBy(wanted, name))) }))
    .sort((one, other) => one.off - other.off || (one.record.id < other.record.id ? -1 : 1));
  const nearest = ranked[0]?.off ?? 1;
  const near = ranked.filter(({ off }) => off <= FARTHEST && off <= nearest + BESIDE_NEAREST);
  const kin = ranked.filter(({ record }) => record.taxon.genus.toLowerCase() === wanted.split('-')[0]);
  return (near.length > 0 ? near : kin).slice(0, MOST_OFFERED).map(({ record }) => record);
}

const folded = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, '-');

const namesOf = (record: SpeciesRecord): string[] => [record.id, ...record.vernacularNames.map(({ name }) => folded(name))];

/** "clownfish" is a word of "orange clownfish", and so almost the same. */
function offBy(wanted: string, name: string): number {
  if (wanted === name) return 0;
  if (`-${name}-`.includes(`-${wanted}-`)) return 0.01;
  return distance(wanted, name) / Math.max(wanted.length, name.length);
}
