import { didYouMean, nearestWord, placeName } from '@commensal/schema';
import { type Mention, mentionsIn } from '../names/names.js';
import { type Collection, type CollectionCheck, idsOf, type RecordEntry, type Told } from './entry.js';

/** `unknown-record`: partners, look-alikes and replacements are named by the ids of records. */
export const unknownRecord: CollectionCheck = ({ entries, byId }, { otherIds = [] }) => {
  const ids = new Set([...byId.keys(), ...otherIds]);
  return entries.flatMap((entry) =>
    mentionsIn(entry.record)
      .filter(({ id }) => !ids.has(id))
      .map(
        ({ pointer, id }): Told => ({
          entry,
          problem: {
            code: 'unknown-record',
            pointer,
            found: `${placeName(pointer)} is "${id}"`,
            allowed: 'it must be the id of a record',
            fix: didYouMean(id, [...ids], 'Add the record, or take it out.'),
          },
        }),
      ),
  );
};

type Kind = NonNullable<NonNullable<RecordEntry['record']['needs']>['partners']>[number]['kind'];

/** What the other is, seen from its side. */
const IN_TURN: Readonly<Record<Kind, Kind>> = { host: 'guest', guest: 'host', 'burrow-mate': 'burrow-mate' };

const partnersOf = ({ record }: RecordEntry): readonly { readonly species: string; readonly kind: Kind }[] => record.needs?.partners ?? [];

/** An id that is misspelt on the other side is told there. */
const isMisspelt = (mentions: readonly Mention[], id: string, { byId }: Collection): boolean =>
  mentions.some((mention) => !byId.has(mention.id) && nearestWord(mention.id, [...byId.keys()]) === id);

/** `one-sided-partner`: living together has two sides, and rules look at either. */
export const oneSidedPartner: CollectionCheck = (collection) =>
  collection.entries.flatMap((entry) =>
    partnersOf(entry).flatMap(({ species, kind }, index): Told[] => {
      const { id } = entry.record;
      const other = collection.byId.get(species);
      if (other === undefined || other === entry) return [];
      const back = partnersOf(other).filter((partner) => idsOf(entry.record).includes(partner.species));
      if (back.some((partner) => partner.kind === IN_TURN[kind])) return [];
      const wrong = back[0];
      // Where both name each other with words that do not fit, the later of the two is told of.
      if (wrong !== undefined && collection.entries.indexOf(other) > collection.entries.indexOf(entry)) return [];
      if (wrong === undefined && isMisspelt(mentionsIn(other.record), id, collection)) return [];
      const pointer = `/needs/partners/${index}`;
      return [
        {
          entry,
          problem: {
            code: 'one-sided-partner',
            pointer,
            found:
              wrong === undefined
                ? `${placeName(pointer)} names "${species}" as ${kind}, and ${other.file} does not name "${id}"`
                : `${placeName(pointer)} names "${species}" as ${kind}, and ${other.file} names "${id}" as ${wrong.kind}`,
            allowed: `where one names the other as ${kind}, the other names it as ${IN_TURN[kind]}`,
            fix:
              wrong === undefined
                ? `Add "${id}" as ${IN_TURN[kind]} to the partners there, or take it out here.`
                : 'Correct the kind on the side that is wrong.',
          },
        },
      ];
    }),
  );

/** `replaced-in-a-circle`: who follows the replacements must come to an end. */
export const replacedInACircle: CollectionCheck = ({ entries, byId }) => {
  const told = new Set<RecordEntry>();
  return entries.flatMap((entry): Told[] => {
    const way = [entry];
    let next = byId.get(entry.record.replacedBy ?? '');
    while (next !== undefined && next !== entry && !way.includes(next)) {
      way.push(next);
      next = byId.get(next.record.replacedBy ?? '');
    }
    if (next !== entry || way.length < 2 || way.some((one) => told.has(one))) return [];
    told.add(entry);
    return [
      {
        entry,
        problem: {
          code: 'replaced-in-a-circle',
          pointer: '/replacedBy',
          found: `replacedBy leads from "${way.map(({ record }) => record.id).join('" to "')}" and back`,
          allowed: 'a replacement leads to a record that stays in use',
          fix: 'Take "replacedBy" and "deprecatedIn" out of the record that stays.',
        },
      },
    ];
  });
};
