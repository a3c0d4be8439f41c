/** A record of schema 1.0 as the draft 0.9 would have had it: written apart from the migration, to hold it to going back. */
import type { SpeciesRecord } from '@commensal/schema';

type Members = Readonly<Record<string, unknown>>;

const NAME: Readonly<Record<string, string>> = { low: 'min', high: 'max', basis: 'evidence', source: 'reference', from: 'relatives' };
const WORD: Readonly<Record<string, string>> = {
  measured: 'published',
  derived: 'computed',
  imputed: 'relatives',
  practice: 'trade',
  recalled: 'memory',
};
const UNIT: Readonly<Record<string, string>> = {
  '[in_i]': 'in',
  '[gal_us]': 'gal',
  '[lb_av]': 'lb',
  Cel: 'C',
  '[degF]': 'F',
  '[pH]': 'pH',
  '/a': 'per year',
  '/d': 'per day',
  a: 'years',
  d: 'days',
  1: 'ratio',
};

function drafted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(drafted);
  if (typeof value !== 'object' || value === null) return value;
  if (!Object.hasOwn(value, 'basis')) return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, drafted(member)]));
  return Object.fromEntries(
    Object.entries(value).map(([key, member]) => {
      const words = key === 'basis' ? WORD : key === 'unit' ? UNIT : {};
      return [NAME[key] ?? key, words[String(member)] ?? member];
    }),
  );
}

/** The record in the form of the draft. */
export function draftOf(record: SpeciesRecord): Members {
  const { $schema, id, addedIn, deprecatedIn, replacedBy, taxon, synonyms, vernacularNames, form, size, sources, extensions, ...rest } =
    record;
  const names: Record<string, string[]> = {};
  for (const { name, language } of vernacularNames) {
    names[language] ??= [];
    names[language].push(name);
  }
  const entries: (readonly [string, unknown])[] = [
    ['$schema', $schema.replace('/1.0/', '/0.9/')],
    ['id', id],
    ['release', addedIn],
    ['retired', deprecatedIn],
    ['useInstead', replacedBy],
    ['scientificName', taxon.scientificName],
    ['authorship', taxon.scientificNameAuthorship],
    ['genus', taxon.genus],
    ['family', taxon.family],
    ['order', taxon.order],
    ['aphiaId', taxon.taxonID === undefined ? undefined : Number(taxon.taxonID.split(':').at(-1))],
    ['otherNames', synonyms],
    ['commonNames', names],
    ['animal', form],
    ['lengths', drafted(size)],
    ...Object.entries(rest).map(([key, value]) => [key, drafted(value)] as const),
    ['references', sources],
    ['extensions', extensions],
  ];
  return Object.fromEntries(entries.filter(([, value]) => value !== undefined));
}
