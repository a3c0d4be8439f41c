import { childPointer, placeName, type Problem } from '@commensal/schema';
import type { CollectionCheck, RecordEntry, Told } from './entry.js';

/** `duplicate-id`: the second of two records with one id. */
export function duplicateIds(entries: readonly RecordEntry[]): Told[] {
  const first = new Map<string, RecordEntry>();
  return entries.flatMap((entry): Told[] => {
    const { id } = entry.record;
    const before = first.get(id);
    if (before === undefined) {
      first.set(id, entry);
      return [];
    }
    const problem: Problem = {
      code: 'duplicate-id',
      pointer: '/id',
      found: `id is "${id}", as it is in ${before.file}`,
      allowed: 'each record must have an id of its own',
      fix: 'Keep one of the two records.',
    };
    return [{ entry, problem }];
  });
}

const isReplaced = (one: RecordEntry, other: RecordEntry): boolean =>
  one.record.replacedBy === other.record.id || other.record.replacedBy === one.record.id;

/** `same-taxon`: two records with one identifier, of which neither replaces the other. */
export const sameTaxon: CollectionCheck = ({ entries }) => {
  const first = new Map<string, RecordEntry>();
  return entries.flatMap((entry): Told[] => {
    const { taxonID } = entry.record.taxon;
    if (taxonID === undefined) return [];
    const before = first.get(taxonID);
    if (before === undefined) {
      first.set(taxonID, entry);
      return [];
    }
    if (isReplaced(entry, before)) return [];
    return [
      {
        entry,
        problem: {
          code: 'same-taxon',
          pointer: '/taxon/taxonID',
          found: `taxon.taxonID is "${taxonID}", as it is in ${before.file}`,
          allowed: 'each taxon has one record, and each record one taxon',
          fix: `Look up which of them has that identifier; where "${entry.record.taxon.scientificName}" and "${before.record.taxon.scientificName}" are one species, let "replacedBy" of the older record name the other.`,
        },
      },
    ];
  });
};

/**
 * `synonyms-of-each-other`, `synonym-is-a-record` and `synonym-twice`: a name that leads to two records leads to none. Records that replace one
 * another may share names.
 */
export const synonymsElsewhere: CollectionCheck = ({ entries, byName }) => {
  const first = new Map<string, RecordEntry>();
  return entries.flatMap((entry) =>
    (entry.record.synonyms ?? []).flatMap((synonym, index): Told[] => {
      const pointer = childPointer('/synonyms', index);
      const found = `${placeName(pointer)} is "${synonym}"`;
      const named = byName.get(synonym);
      const { scientificName } = entry.record.taxon;
      if (named !== undefined && named !== entry) {
        if (isReplaced(named, entry)) return [];
        const isMutual = named.record.synonyms?.includes(scientificName) === true;
        // Told of the later of the two.
        if (isMutual && entries.indexOf(named) > entries.indexOf(entry)) return [];
        return [
          {
            entry,
            problem: isMutual
              ? {
                  code: 'synonyms-of-each-other',
                  pointer,
                  found: `${found}, the species of ${named.file}, which has "${scientificName}" among its synonyms`,
                  allowed: 'of two names for one species one is the synonym',
                  fix: 'Look up which name is accepted; where they are one species, let "replacedBy" of the other record name it, else take both synonyms out.',
                }
              : {
                  code: 'synonym-is-a-record',
                  pointer,
                  found: `${found}, the species of ${named.file}`,
                  allowed: 'a synonym leads to one record',
                  fix: 'Take it out; where they are one species, let "replacedBy" of the record that goes out of use name the other.',
                },
          },
        ];
      }
      const before = first.get(synonym);
      if (before === undefined) {
        first.set(synonym, entry);
        return [];
      }
      if (before === entry || isReplaced(before, entry)) return [];
      return [
        {
          entry,
          problem: {
            code: 'synonym-twice',
            pointer,
            found: `${found}, as it is in ${before.file}`,
            allowed: 'a synonym leads to one record',
            fix: 'Look up whose synonym it is; where the name was given to both, say so in an exception.',
          },
        },
      ];
    }),
  );
};
