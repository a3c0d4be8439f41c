/**
 * Schema 0.9 was never published and no release held records of it: it is a draft made up to have a migration that is
 * done and tested. It stands for the lists that volunteers keep before they know the schema, with plainer names:
 *
 * - the name of the species and its parts stand at the top, the AphiaID is a number, common names are lists by language;
 * - `release`, `retired`, `useInstead`, `animal`, `lengths` and `references` are called otherwise now;
 * - a figure has `min` and `max`, `evidence` (published, computed, relatives, trade, memory), `reference` and `relatives`,
 *   and units in plain words;
 * - a figure may be called published without a reference.
 *
 * Its schema and records of it are kept with the tests of this package.
 */
import { validate } from '../generated/species-validator.js';
import { childPointer, keysOf, placeName, valueAt } from '../pointer.js';
import type { Problem } from '../problem.js';
import { schemaAddress } from '../schema-version.js';
import { sourcesUsedIn } from '../sources-used.js';
import { onlyKnown } from '../unknown-places.js';
import { valueWords } from '../words.js';
import type { Members, Migration, Step } from './migration.js';

/** Under this name in `extensions` stands what schema 1.0 has no place for, by its pointer in the draft. */
const ASIDE = 'schema-0-9';

/** Where the members of the record stand now, in the order of schema 1.0. */
const MOVES: readonly (readonly [was: string, is: string])[] = [
  ['id', 'id'],
  ['release', 'addedIn'],
  ['retired', 'deprecatedIn'],
  ['useInstead', 'replacedBy'],
  ['scientificName', 'taxon/scientificName'],
  ['authorship', 'taxon/scientificNameAuthorship'],
  ['genus', 'taxon/genus'],
  ['family', 'taxon/family'],
  ['order', 'taxon/order'],
  ['aphiaId', 'taxon/taxonID'],
  ['otherNames', 'synonyms'],
  ['commonNames', 'vernacularNames'],
  ['animal', 'form'],
  ['kinGroup', 'kinGroup'],
  ['lengths', 'size'],
  ['growth', 'growth'],
  ['shape', 'shape'],
  ['feeding', 'feeding'],
  ['conduct', 'conduct'],
  ['needs', 'needs'],
  ['introduction', 'introduction'],
  ['hazards', 'hazards'],
  ['conservation', 'conservation'],
  ['lifeCycle', 'lifeCycle'],
  ['references', 'sources'],
];

/** Members of everything that says its evidence. */
const RENAMED: Members = { min: 'low', max: 'high', evidence: 'basis', reference: 'source', relatives: 'from' };

const BASIS: Members = { published: 'measured', computed: 'derived', relatives: 'imputed', trade: 'practice', memory: 'recalled' };

const UNIT: Members = {
  in: '[in_i]',
  gal: '[gal_us]',
  lb: '[lb_av]',
  C: 'Cel',
  F: '[degF]',
  pH: '[pH]',
  'per year': '/a',
  'per day': '/d',
  years: 'a',
  days: 'd',
  ratio: '1',
};

/** What a basis asks for besides, and what of source, formula and group may stand beside it. */
const GROUNDS: Readonly<Record<string, readonly string[]>> = {
  measured: ['source'],
  derived: ['source', 'formula'],
  imputed: ['source', 'from'],
  practice: [],
  recalled: [],
};

const isMembers = (value: unknown): value is Members => typeof value === 'object' && value !== null && !Array.isArray(value);
const wordFrom = (words: Members, value: unknown): unknown =>
  typeof value === 'string' && Object.hasOwn(words, value) ? words[value] : value;

/** What a migration has noticed so far, and what it has put aside. */
interface Notes {
  readonly notices: Problem[];
  readonly aside: [pointer: string, value: unknown][];
}

function putAside(notes: Notes, pointer: string, value: unknown, why: string): void {
  notes.aside.push([pointer, value]);
  notes.notices.push({
    code: 'not-carried',
    pointer,
    found: `${placeName(pointer)} is ${valueWords(value)}`,
    allowed: why,
    fix: `It is kept under "extensions"."${ASIDE}": give it a place, or take it out.`,
  });
}

/** A figure with its new names and words. Where its basis asks for what is not there, it is no more than recalled. */
function figure(draft: Members, pointer: string, notes: Notes): Members {
  const members = Object.entries(draft).map(([name, value]): [string, unknown, string] => {
    const own = wordFrom(RENAMED, name) as string;
    // Where both names are there the old one stays, and is put aside with all else that is not known.
    const key = own !== name && Object.hasOwn(draft, own) ? name : own;
    return [key, key === 'basis' ? wordFrom(BASIS, value) : key === 'unit' ? wordFrom(UNIT, value) : value, name];
  });
  const given = Object.fromEntries(members.map(([key, value]) => [key, value]));
  const asked = typeof given.basis === 'string' ? GROUNDS[given.basis] : undefined;
  const missing = asked?.find((name) => given[name] === undefined);
  if (missing !== undefined) {
    notes.notices.push({
      code: 'not-carried',
      pointer: childPointer(pointer, 'evidence'),
      found: `${placeName(pointer)} has the evidence ${valueWords(draft.evidence)} but no "${missing}"`,
      allowed: `with the basis "${given.basis}", "${missing}" must be given`,
      fix: 'Its basis is "recalled" now: look the figure up, then raise the basis again.',
    });
  }
  const basis = missing === undefined ? given.basis : 'recalled';
  const allowed = typeof basis === 'string' ? GROUNDS[basis] : undefined;
  return Object.fromEntries(
    members.flatMap(([key, value, was]): [string, unknown][] => {
      if (key === 'basis') return [[key, basis]];
      if (allowed === undefined || allowed.includes(key) || !['source', 'formula', 'from'].includes(key)) return [[key, value]];
      putAside(notes, childPointer(pointer, was), value, `with the basis "${basis}" there is no "${key}"`);
      return [];
    }),
  );
}

function withFigures(value: unknown, pointer: string, notes: Notes): unknown {
  if (Array.isArray(value)) return value.map((item, index) => withFigures(item, childPointer(pointer, index), notes));
  if (!isMembers(value)) return value;
  if (Object.hasOwn(value, 'evidence')) return figure(value, pointer, notes);
  return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, withFigures(member, childPointer(pointer, key), notes)]));
}

function namesOf(byLanguage: unknown): unknown {
  if (!isMembers(byLanguage)) return byLanguage;
  return Object.entries(byLanguage).flatMap(([language, names]) =>
    (Array.isArray(names) ? names : [names]).map((name: unknown) => ({ name, language })),
  );
}

/** Members that are not a figure and change their form. */
const CHANGED: Readonly<Record<string, (value: unknown) => unknown>> = {
  aphiaId: (value) => (typeof value === 'number' ? `urn:lsid:marinespecies.org:taxname:${value}` : value),
  commonNames: namesOf,
};

function moved(draft: Members, notes: Notes): Record<string, unknown> {
  const record: Record<string, unknown> = { $schema: schemaAddress('species', '1.0') };
  const taxon: Record<string, unknown> = {};
  for (const [was, is] of MOVES) {
    if (!Object.hasOwn(draft, was)) continue;
    const value = (CHANGED[was] ?? ((same: unknown) => withFigures(same, childPointer('', was), notes)))(draft[was]);
    const [top = is, part] = is.split('/');
    if (part === undefined) record[top] = value;
    else {
      taxon[part] = value;
      record.taxon = taxon;
    }
  }
  // What has no place goes on as it is, at the end, for the schema to find.
  for (const [name, value] of Object.entries(draft)) {
    if (name === '$schema' || name === 'extensions' || MOVES.some(([was]) => was === name)) continue;
    if (Object.hasOwn(record, name)) putAside(notes, childPointer('', name), value, 'the place it would have is taken');
    else record[name] = value;
  }
  return record;
}

/** Where something of the record stood in the draft. Figures keep their places; only the tops have moved. */
function placeBefore(pointer: string): string {
  const keys = keysOf(pointer);
  const [was = '', is = ''] = MOVES.find(([, place]) => place.split('/').every((key, level) => keys[level] === key)) ?? [];
  return is === '' ? pointer : [was, ...keys.slice(is.split('/').length)].reduce(childPointer, '');
}

function sourcesOf(record: Members, listed: unknown, notes: Notes): string[] {
  const used = sourcesUsedIn(record);
  if (listed !== undefined && !Array.isArray(listed)) putAside(notes, '/references', listed, 'it must be a list of sources');
  for (const [index, source] of (Array.isArray(listed) ? listed : []).entries()) {
    if (used.has(source as string)) continue;
    putAside(notes, childPointer('/references', index), source, 'no figure of the record names it as its source');
  }
  return [...used].sort();
}

function migrate(draft: Members): Step {
  const notes: Notes = { notices: [], aside: [] };
  const { sources: listed, ...rest } = moved(draft, notes);
  const { document: known, unknown } = onlyKnown(validate, rest);
  for (const pointer of unknown) putAside(notes, placeBefore(pointer), valueAt(rest, pointer), 'schema 1.0 has no such property');
  const { exceptions, ...record } = known as Members;
  const sources = sourcesOf(record, listed, notes);
  const extensions = {
    ...(isMembers(draft.extensions) ? draft.extensions : {}),
    ...(notes.aside.length === 0 ? {} : { [ASIDE]: Object.fromEntries(notes.aside) }),
  };
  return {
    // The order of the schema.
    document: {
      ...record,
      sources,
      ...(exceptions === undefined ? {} : { exceptions }),
      ...(Object.keys(extensions).length === 0 ? {} : { extensions }),
    },
    notices: notes.notices,
  };
}

/** From the draft to the first published version. */
export const from09To10: Migration = { from: '0.9', to: '1.0', migrate };
