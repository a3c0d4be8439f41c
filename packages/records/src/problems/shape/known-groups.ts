import type { SpeciesRecord } from '@commensal/schema';

/** Families and genera that share a trait; the names are Darwin Core terms, as in records. */
export interface Group {
  readonly families?: readonly string[];
  readonly genera?: readonly string[];
  readonly form?: SpeciesRecord['form'];
  /** What they have, in a sentence. */
  readonly trait: string;
}

/** By what a species belongs to a group: in words, and where its record says so. */
export interface Membership {
  readonly name: string;
  readonly pointer: string;
}

/** Whether a species belongs to a group. */
export function membershipIn({ taxon, form }: SpeciesRecord, group: Group): Membership | undefined {
  if (group.genera?.includes(taxon.genus) === true) return { name: `the genus ${taxon.genus}`, pointer: '/taxon/genus' };
  if (group.families?.includes(taxon.family) === true) return { name: `the family ${taxon.family}`, pointer: '/taxon/family' };
  return group.form === form ? { name: `the form "${form}"`, pointer: '/form' } : undefined;
}

/** Jaws long for picking or for sucking in (textbook knowledge, from memory; Chelmon, Oxycirrhites and Hippocampus also in FishShapes v1). */
export const LONG_SNOUTS: Group = {
  families: ['Aulostomidae', 'Centriscidae', 'Fistulariidae', 'Solenostomidae', 'Syngnathidae'],
  genera: ['Chelmon', 'Chelmonops', 'Forcipiger', 'Gomphosus', 'Oxycirrhites'],
  trait: 'jaws that are long for picking',
};

/** Spines that lock or spread, bellies that fill with water (textbook knowledge, from memory). */
export const DEFENDED: readonly Group[] = [
  {
    families: ['Apistidae', 'Balistidae', 'Monacanthidae', 'Plotosidae', 'Scorpaenidae', 'Siganidae', 'Synanceiidae', 'Tetrarogidae'],
    trait: 'spines that spread or lock',
  },
  { families: ['Diodontidae', 'Tetraodontidae'], trait: 'a belly that inflates' },
];

/** What handling them can do (textbook knowledge, from memory; venoms of fishes: Smith & Wheeler 2006, from memory). */
export const HAZARDOUS: readonly (Group & { readonly kind: NonNullable<SpeciesRecord['hazards']>[number]['kind'] })[] = [
  {
    kind: 'venom',
    families: [
      'Apistidae',
      'Conidae',
      'Dasyatidae',
      'Diadematidae',
      'Plotosidae',
      'Scatophagidae',
      'Scorpaenidae',
      'Siganidae',
      'Synanceiidae',
      'Tetrarogidae',
      'Trachinidae',
      'Uranoscopidae',
      'Urolophidae',
      'Urotrygonidae',
    ],
    genera: ['Hapalochlaena', 'Meiacanthus', 'Toxopneustes'],
    trait: 'venom in spines, fangs or bite',
  },
  {
    kind: 'toxin',
    families: ['Ostraciidae', 'Tetraodontidae'],
    genera: ['Grammistes', 'Pardachirus', 'Rypticus'],
    trait: 'poison in skin or flesh',
  },
  { kind: 'cut', families: ['Acanthuridae'], trait: 'blades at the root of the tail' },
  { kind: 'sting', form: 'anemone', trait: 'nettle cells' },
];
