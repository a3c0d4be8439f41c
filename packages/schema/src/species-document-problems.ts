import { documentProblems, eachObject } from './document-problems.js';
import type { SpeciesRecord } from './generated/species.js';
import { childPointer, placeName } from './pointer.js';
import type { Problem } from './problem.js';
import { didYouMean, nearestWord, valueWords } from './words.js';

function nameProblems(record: SpeciesRecord): Problem[] {
  const { scientificName, genus } = record.taxon;
  const mismatch = (pointer: string, is: string, should: string): Problem => ({
    code: 'name-mismatch',
    pointer,
    found: `${placeName(pointer)} is ${valueWords(is)}`,
    allowed: `with the scientific name ${valueWords(scientificName)} it must be ${valueWords(should)}`,
    fix: 'Correct the one that is wrong.',
  });
  const words = scientificName.split(' ');
  const id = words.join('-').toLowerCase();
  const problems: Problem[] = [];
  if (record.id !== id) problems.push(mismatch('/id', record.id, id));
  if (genus !== words[0]) problems.push(mismatch('/taxon/genus', genus, words[0] ?? ''));
  return problems;
}

/** The sources that figures name, each with the places that name it. */
function sourcesUsed(record: SpeciesRecord): Map<string, string[]> {
  const used = new Map<string, string[]>();
  eachObject(record, ({ source }, pointer) => {
    if (typeof source !== 'string') return;
    const places = used.get(source) ?? [];
    places.push(childPointer(pointer, 'source'));
    used.set(source, places);
  });
  return used;
}

function notListed(source: string, places: readonly string[], record: SpeciesRecord): Problem {
  const place = places[0] ?? '';
  const others = places.length - 1;
  const more = others === 0 ? '' : `, and so ${others === 1 ? 'is 1 other' : `are ${others} others`}`;
  return {
    code: 'source-not-listed',
    pointer: place,
    found: `${placeName(place)} is ${valueWords(source)}${more}`,
    allowed: 'the list "sources" of the record must name it',
    fix: didYouMean(source, record.sources, 'Add it to "sources".'),
  };
}

/**
 * One problem for each key that stands on one side only. Where a key of either side is a slip of the pen for one of the other, that is one
 * mistake: where several figures name the one, the list has the slip.
 */
function sourceProblems(record: SpeciesRecord): Problem[] {
  const used = sourcesUsed(record);
  const unlisted = new Map([...used].filter(([source]) => !record.sources.includes(source)));
  const told: Problem[] = [];
  for (const [index, source] of record.sources.entries()) {
    if (used.has(source)) continue;
    const meant = nearestWord(source, [...unlisted.keys()]);
    const places = meant === undefined ? undefined : unlisted.get(meant);
    if (meant !== undefined && places !== undefined) {
      unlisted.delete(meant);
      if (places.length === 1) {
        told.push(notListed(meant, places, record));
        continue;
      }
    }
    const place = childPointer('/sources', index);
    told.push({
      code: 'source-not-used',
      pointer: place,
      found: `${placeName(place)} is ${valueWords(source)}`,
      allowed: 'no figure of the record names it as its source',
      fix: didYouMean(source, [...used.keys()], 'Take it out, or name it where it was used.'),
    });
  }
  return [...told, ...[...unlisted].map(([source, places]) => notListed(source, places, record))];
}

/**
 * What the schema cannot say of a species record: its names agree, and it lists just the sources it uses. The
 * record must have passed the schema.
 *
 * @example
 * speciesDocumentProblems(record) // []
 */
export function speciesDocumentProblems(record: SpeciesRecord): Problem[] {
  return [...nameProblems(record), ...sourceProblems(record), ...documentProblems(record)];
}
