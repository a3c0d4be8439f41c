import { type Library, nearMiss } from '@commensal/core';
import { nearestWord, type SpeciesRecord } from '@commensal/schema';
import { withImputed } from './imputed.js';

/** What has to be told of a species before there is a record. */
export interface DraftInput {
  /** Genus and species, as in `Halichoeres melanurus`. */
  readonly scientificName: string;
  readonly family: string;
  readonly form: SpeciesRecord['form'];
  readonly vernacularNames: SpeciesRecord['vernacularNames'];
  readonly addedIn: string;
  readonly scientificNameAuthorship?: string | undefined;
  readonly taxonID?: string | undefined;
  /** The greatest length on record; `source` is a key of the bibliography, and without one it is from memory. */
  readonly maximum?:
    | {
        readonly value: number;
        readonly unit: 'cm' | 'mm' | '[in_i]';
        readonly lengthType: LengthType;
        readonly source?: string | undefined;
      }
    | undefined;
}

type LengthType = 'TL' | 'SL' | 'FL' | 'DM' | 'SH';

/** Genus and species, each with the letters that the schema allows. */
export const SCIENTIFIC_NAME: RegExp = /^[A-Z][a-z]+ [a-z]+( [a-z]+)?$/;

/**
 * The id of a species: its name in lower case with hyphens.
 *
 * @example
 * idOf('Gramma loreto'); // 'gramma-loreto'
 */
export const idOf = (scientificName: string): string => scientificName.toLowerCase().replaceAll(' ', '-');

/**
 * The release after one, of the same year.
 *
 * @throws RangeError for what is no release.
 * @example
 * nextRelease('2026.1'); // '2026.2'
 */
export function nextRelease(release: string): string {
  const [, year, number] = /^(\d{4})\.(\d+)$/.exec(release) ?? [];
  if (year === undefined || number === undefined)
    throw new RangeError(`nextRelease: expected a release such as 2026.1, received "${release}"`);
  return `${year}.${Number(number) + 1}`;
}

/** The family that records of the genus are of; undefined where there is none. */
export const familyOfGenus = (genus: string, { records }: Library): string | undefined =>
  [...records.values()].find(({ taxon }) => taxon.genus === genus)?.taxon.family;

/** The form that all records of a family have; undefined where there is none, or more than one. */
export function formOfFamily(family: string, { records, standIns }: Library): SpeciesRecord['form'] | undefined {
  const forms = new Set([...records.values()].filter(({ taxon }) => taxon.family === family).map(({ form }) => form));
  if (forms.size === 1) return [...forms][0];
  // The tables of stand-ins are of fishes alone.
  return forms.size === 0 && standIns?.groups.some(({ rank, name }) => rank === 'family' && name === family) === true ? 'fish' : undefined;
}

/** The kin group that all records of a genus name; undefined where they name none, or more than one. */
export function kinOfGenus(genus: string, { records }: Library): string | undefined {
  const groups = new Set([...records.values()].filter(({ taxon }) => taxon.genus === genus).map(({ kinGroup }) => kinGroup?.value));
  return groups.size === 1 ? [...groups][0] : undefined;
}

/** Families that records or stand-ins know, in alphabetical order. */
export const familiesKnown = ({ records, standIns }: Library): string[] =>
  [
    ...new Set([
      ...[...records.values()].map(({ taxon }) => taxon.family),
      ...(standIns?.groups ?? []).filter(({ rank }) => rank === 'family').map(({ name }) => name),
    ]),
  ].sort();

/** A family that nothing knows may be new or misspelt: the nearest that is known, where one is near. */
export function nearFamily(family: string, library: Library): string | undefined {
  const known = familiesKnown(library);
  return known.includes(family) ? undefined : nearMiss(family, known);
}

/** The record that a species already has, by its name or as a synonym of another. */
export const recordedAs = (scientificName: string, { records }: Library): SpeciesRecord | undefined =>
  records.get(idOf(scientificName)) ??
  [...records.values()].find(
    ({ taxon, synonyms }) => taxon.scientificName === scientificName || synonyms?.includes(scientificName) === true,
  );

/** A species on record, or a genus, whose name differs by a slip of the pen; nothing where none is so near. */
export function nearName(scientificName: string, { records }: Library): { readonly species?: string; readonly genus?: string } {
  const names = [...records.values()].flatMap(({ taxon, synonyms = [] }) => [taxon.scientificName, ...synonyms]);
  const [own = '', epithet = ''] = scientificName.split(' ');
  const genera = [...new Set(names.map((name) => name.split(' ')[0] ?? ''))];
  const genus = genera.includes(own) ? own : nearestWord(own, genera);
  const near = nearestWord(
    epithet,
    names.filter((name) => name.startsWith(`${genus} `)).map((name) => name.slice(`${genus} `.length)),
  );
  return {
    ...(genus === undefined || near === undefined ? {} : { species: `${genus} ${near}` }),
    ...(genus === undefined || genus === own ? {} : { genus }),
  };
}

/** A first record of a species: what was told, and the figures of genus and family that stand in, each with its band. */
export function draftRecord(input: DraftInput, library: Library): SpeciesRecord {
  const { scientificName, family, form, vernacularNames, addedIn, scientificNameAuthorship, taxonID, maximum } = input;
  const source = maximum?.source;
  const genus = scientificName.split(' ')[0] ?? '';
  const kin = kinOfGenus(genus, library);
  return withImputed(
    {
      $schema: 'https://commensal.example/schema/1.0/species.schema.json',
      id: idOf(scientificName),
      addedIn,
      taxon: {
        scientificName,
        ...(scientificNameAuthorship === undefined ? {} : { scientificNameAuthorship }),
        genus,
        family,
        ...(taxonID === undefined ? {} : { taxonID }),
      },
      vernacularNames,
      form,
      ...(kin === undefined ? {} : { kinGroup: { value: kin, basis: 'practice' as const } }),
      ...(maximum === undefined
        ? {}
        : {
            size: {
              maximum: {
                value: maximum.value,
                unit: maximum.unit,
                lengthType: maximum.lengthType,
                ...(source === undefined ? { basis: 'recalled' } : { basis: 'measured', source }),
              },
            },
          }),
      sources: source === undefined ? [] : [source],
    },
    library,
  );
}

/** The text of a record's file: two spaces a step, a line break at the end. */
export const recordText = (record: SpeciesRecord): string => `${JSON.stringify(record, null, 2)}\n`;
