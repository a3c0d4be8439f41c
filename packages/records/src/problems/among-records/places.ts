import { placeName } from '@commensal/schema';
import { RECORD_ENDING, recordPath } from '../../record-path.js';
import { type CollectionCheck, type Collection, genusOf, type RecordEntry, type Told } from './entry.js';

/** The last two parts of a path: folder and file. */
const tailOf = (file: string): readonly string[] => file.split(/[/\\]/).slice(-2);

/** `file-place`: where a record stands is said by its family and its id. Names that do not agree within the record are told elsewhere. */
export const filePlace: CollectionCheck = (collection) =>
  collection.entries.flatMap((entry): Told[] => {
    const { record, file } = entry;
    const tail = tailOf(file);
    const [wantedFolder = '', wantedName = ''] = recordPath(record).split('/');
    const name = tail.at(-1) ?? '';
    // Drafts may lie in any folder; one that is called like a family says which family.
    const folder = tail[0]?.endsWith('idae') === true ? tail[0] : undefined;
    const byScientificName = `${record.taxon.scientificName.toLowerCase().replaceAll(' ', '-')}${RECORD_ENDING}`;
    const isNamed = name === wantedName || name === byScientificName;
    // A family that is none is told by itself.
    const isFiled =
      folder === undefined ||
      !record.taxon.family.endsWith('idae') ||
      folder === wantedFolder ||
      folder === familyOfGenus(collection, entry)?.toLowerCase();
    if (isNamed && isFiled) return [];
    const pointer = isNamed ? '/taxon/family' : '/id';
    return [
      {
        entry,
        problem: {
          code: 'file-place',
          pointer,
          found: isNamed
            ? `the file stands in the folder "${folder}", and ${placeName(pointer)} is "${record.taxon.family}"`
            : `the file is called "${name}", and ${placeName(pointer)} is "${record.id}"`,
          allowed: `a record stands in "${wantedFolder}/${wantedName}"`,
          fix: isNamed ? 'Move the file, or correct the family.' : 'Rename the file; an id that was published is never changed.',
        },
      },
    ];
  });

/** The family that most other records of the genus name. */
function familyOfGenus({ familiesOf }: Collection, { record }: RecordEntry): string | undefined {
  const counts = familiesOf.get(genusOf(record));
  let usual: string | undefined;
  let most = 0;
  for (const [family, count] of counts ?? []) {
    const others = family === record.taxon.family ? count - 1 : count;
    if (others <= most) continue;
    usual = family;
    most = others;
  }
  return usual;
}

const isInItsFolder = ({ file, record }: RecordEntry): boolean => tailOf(file)[0] === record.taxon.family.toLowerCase();

/** Which of as many is told of: those that do not stand in the folder of their family, else the later ones. */
function isOddOne(entry: RecordEntry, other: RecordEntry, all: readonly RecordEntry[]): boolean {
  if (isInItsFolder(entry) !== isInItsFolder(other)) return !isInItsFolder(entry);
  return all.indexOf(other) < all.indexOf(entry);
}

/** `genus-in-two-families`: told of the records that are fewer. */
export const genusInTwoFamilies: CollectionCheck = (collection) =>
  collection.entries.flatMap((entry): Told[] => {
    const { family } = entry.record.taxon;
    const genus = genusOf(entry.record);
    if (!family.endsWith('idae')) return [];
    const usual = familyOfGenus(collection, entry);
    if (usual === undefined || usual === family) return [];
    const all = collection.byGenus.get(genus) ?? [];
    const alike = all.filter(({ record }) => record.taxon.family === family).length;
    const others = all.filter(({ record }) => record.taxon.family === usual);
    const other = others[0];
    if (other === undefined || alike > others.length) return [];
    if (alike === others.length && !isOddOne(entry, other, all)) return [];
    return [
      {
        entry,
        problem: {
          code: 'genus-in-two-families',
          pointer: '/taxon/family',
          found: `taxon.family is "${family}", and ${other.file} has ${genus} in "${usual}"`,
          allowed: 'a genus stands in one family',
          fix: `Write "${usual}", or correct the other record.`,
        },
      },
    ];
  });
