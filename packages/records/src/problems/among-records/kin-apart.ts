import type { CollectionCheck, RecordEntry, Told } from './entry.js';

/** From so many others on that agree, one that says otherwise is told of; with fewer either may be right. */
const ENOUGH_TO_DIFFER = 2;

const kinOf = ({ record }: RecordEntry): string | undefined => record.kinGroup?.value;

/**
 * `kin-apart`: species of one genus are kin. Where all others of a genus name one kin group, and this record none or another, rules let it in on
 * another day than its kin and count no fights with them.
 */
export const kinApart: CollectionCheck = ({ byGenus }) =>
  [...byGenus].flatMap(([genus, members]): Told[] =>
    members.flatMap((entry): Told[] => {
      const others = members.filter((other) => other !== entry);
      const theirs = new Set(others.map(kinOf));
      const [group] = theirs;
      const own = kinOf(entry);
      if (theirs.size !== 1 || group === undefined || own === group) return [];
      if (own !== undefined && others.length < ENOUGH_TO_DIFFER) return [];
      const count = others.length === 1 ? 'the other record' : `the ${others.length} other records`;
      return [
        {
          entry,
          problem: {
            code: 'kin-apart',
            pointer: own === undefined ? '' : '/kinGroup/value',
            found: own === undefined ? 'the document has no "kinGroup"' : `kinGroup.value is "${own}"`,
            allowed: `${count} of ${genus} ${others.length === 1 ? 'names' : 'name'} the kin group "${group}", and what names none counts as kin of its whole family`,
            fix: `Write "kinGroup": { "value": "${group}", "basis": "practice" }, or say in an exception why it is no kin of its genus.`,
          },
        },
      ];
    }),
  );
