import { documentProblems, eachObject } from './document-problems.js';
import type { SpeciesRecord } from './generated/species.js';
import { childPointer, placeName } from './pointer.js';
import type { Problem } from './problem.js';
import { didYouMean, valueWords } from './words.js';

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

function sourceProblems(record: SpeciesRecord): Problem[] {
  const used = new Set<string>();
  const problems: Problem[] = [];
  eachObject(record, ({ source }, pointer) => {
    if (typeof source !== 'string') return;
    used.add(source);
    if (record.sources.includes(source)) return;
    const place = childPointer(pointer, 'source');
    problems.push({
      code: 'source-not-listed',
      pointer: place,
      found: `${placeName(place)} is ${valueWords(source)}`,
      allowed: 'the list "sources" of the record must name it',
      fix: didYouMean(source, record.sources, 'Add it to "sources".'),
    });
  });
  for (const [index, source] of record.sources.entries()) {
    if (used.has(source)) continue;
    const place = childPointer('/sources', index);
    problems.push({
      code: 'source-not-used',
      pointer: place,
      found: `${placeName(place)} is ${valueWords(source)}`,
      allowed: 'no figure of the record names it as its source',
      fix: didYouMean(source, [...used], 'Take it out, or name it where it was used.'),
    });
  }
  return problems;
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
