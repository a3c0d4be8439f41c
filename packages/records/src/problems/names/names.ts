import { childPointer, placeName } from '@commensal/schema';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** `family-ending`: names of animal families end in -idae (International Code of Zoological Nomenclature, article 29.2). */
export const familyEnding: RecordCheck = ({ taxon }) => {
  if (taxon.family.endsWith('idae')) return [];
  return [
    {
      problem: {
        code: 'family-ending',
        pointer: '/taxon/family',
        found: `taxon.family is "${taxon.family}"`,
        allowed: 'names of animal families end in "idae"',
        fix: 'Look at the spelling, and whether it is a family: subfamilies end in "inae", orders mostly in "iformes".',
      },
      doubts: ['/taxon/family', '/taxon'],
    },
  ];
};

/** `own-name-as-synonym`: a species is no synonym of itself. */
export const ownNameAsSynonym: RecordCheck = ({ taxon, synonyms = [] }) =>
  synonyms.flatMap((synonym, index): Suspicion[] => {
    if (synonym !== taxon.scientificName) return [];
    const pointer = childPointer('/synonyms', index);
    return [
      {
        problem: {
          code: 'own-name-as-synonym',
          pointer,
          found: `${placeName(pointer)} is "${synonym}", and so is taxon.scientificName`,
          allowed: 'synonyms are the other names of the species',
          fix: 'Take it out.',
        },
      },
    ];
  });

const SCIENTIFIC = /^[A-Z][a-z]+ [a-z-]+( [a-z-]+)?$/;

/** `synonym-form`: a synonym is found only where it is written as names are. */
export const synonymForm: RecordCheck = ({ synonyms = [] }) =>
  synonyms.flatMap((synonym, index): Suspicion[] => {
    if (SCIENTIFIC.test(synonym)) return [];
    const pointer = childPointer('/synonyms', index);
    return [
      {
        problem: {
          code: 'synonym-form',
          pointer,
          found: `${placeName(pointer)} is "${synonym}"`,
          allowed: 'it must be genus with a capital and species in small letters, such as "Premnas biaculeatus"',
          fix: 'Write the bare name, without author and year; common names go into "vernacularNames".',
        },
      },
    ];
  });

/** `vernacular-twice` and `scientific-as-vernacular`: a name says nothing new. */
export const vernacularNames: RecordCheck = ({ taxon, synonyms = [], vernacularNames: names }) => {
  const scientific = [taxon.scientificName, ...synonyms].map((name) => name.toLowerCase());
  const first = new Map<string, string>();
  return names.flatMap(({ name, language }, index): Suspicion[] => {
    const pointer = childPointer('/vernacularNames', index);
    const folded = name.toLowerCase();
    if (scientific.includes(folded)) {
      return [
        {
          problem: {
            code: 'scientific-as-vernacular',
            pointer,
            found: `${placeName(pointer)} is "${name}", a scientific name of the species`,
            allowed: 'vernacular names are what people call it in a language',
            fix: 'Take it out; other scientific names go into "synonyms".',
          },
        },
      ];
    }
    const before = first.get(`${language} ${folded}`);
    if (before === undefined) {
      first.set(`${language} ${folded}`, pointer);
      return [];
    }
    return [
      {
        problem: {
          code: 'vernacular-twice',
          pointer,
          found: `${placeName(pointer)} is "${name}" in "${language}", and so is ${placeName(before)}`,
          allowed: 'a name stands once in a language',
          fix: 'Take one of them out, or correct its language.',
        },
      },
    ];
  });
};

/** A place of a record that names another by its id. */
export interface Mention {
  readonly pointer: string;
  readonly id: string;
}

/** Where a record names others. */
export function mentionsIn({ needs, conduct, replacedBy }: Parameters<RecordCheck>[0]): Mention[] {
  return [
    ...(replacedBy === undefined ? [] : [{ pointer: '/replacedBy', id: replacedBy }]),
    ...(conduct?.resembles?.species ?? []).map((id, index) => ({ pointer: childPointer('/conduct/resembles/species', index), id })),
    ...(needs?.partners ?? []).map(({ species }, index) => ({ pointer: `/needs/partners/${index}/species`, id: species })),
  ];
}

/** `names-itself`: a partner, a look-alike or a replacement is another species. */
export const namesItself: RecordCheck = (record) =>
  mentionsIn(record)
    .filter(({ id }) => id === record.id)
    .map(
      ({ pointer }): Suspicion => ({
        problem: {
          code: 'names-itself',
          pointer,
          found: `${placeName(pointer)} is "${record.id}", the record itself`,
          allowed: 'it must be another species',
          fix: 'Name the species that was meant, or take it out.',
        },
      }),
    );

const releaseNumber = (release: string): number => {
  const [year = 0, number = 0] = release.split('.').map(Number);
  return year * 1000 + number;
};

/** `release-order`: a record is out of use after it was added, not before. */
export const releaseOrder: RecordCheck = ({ addedIn, deprecatedIn }) => {
  if (deprecatedIn === undefined || releaseNumber(deprecatedIn) >= releaseNumber(addedIn)) return [];
  return [
    {
      problem: {
        code: 'release-order',
        pointer: '/deprecatedIn',
        found: `deprecatedIn is "${deprecatedIn}", addedIn is "${addedIn}"`,
        allowed: 'a record goes out of use in the release that added it or in a later one',
        fix: 'Correct the one that is wrong.',
      },
    },
  ];
};
