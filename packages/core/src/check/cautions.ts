import type { Caution, Hazard, SpeciesRecord } from '@commensal/schema';

/** What cautions hang on besides the species. */
export interface CautionedOf {
  /** What is kept besides the animals of the list. */
  readonly kept?: readonly string[] | undefined;
  /** Species of which a finding speaks of illness or its treatment, by id. */
  readonly ailing?: readonly string[];
}

/**
 * Where what a caution says comes from, keys of the bibliography, by what stands behind `caution.` in its message. First aid names
 * its source in the sentence as well.
 * Care with mains electricity, bites, cuts and the sting of anemones is common practice, without a source.
 */
export const CAUTION_SOURCES: Readonly<Record<string, readonly string[]>> = {
  venom: ['atkinson-2006'],
  palytoxin: ['hamade-2015'],
  neverRelease: ['semmens-2004'],
};

/**
 * Dangers to people and duties that come with species: shown whenever the species are, whatever the rules say. One caution a
 * kind and severity; care with electricity and the duty never to release an animal come with every species.
 */
export function cautionsOf(records: readonly SpeciesRecord[], { kept = [], ailing = [] }: CautionedOf = {}): Caution[] {
  const bySpecies = new Map(records.map((record) => [record.id, record]));
  const all = [...bySpecies.keys()].sort();
  const dangers = [...hazardsOf(all, bySpecies), ...(kept.includes('soft-corals') ? [PALYTOXIN] : [])];
  return [
    ...dangers.sort(byGravity),
    ...protectionOf(all, bySpecies),
    ...dutyOf('medication', [...new Set(ailing)].sort(), 'caution.medication'),
    ...dutyOf('electricity', all, 'caution.electricity'),
    ...dutyOf('never-release', all, 'caution.neverRelease'),
  ];
}

type Records = ReadonlyMap<string, SpeciesRecord>;

const sourced = (about: string): Pick<Caution, 'sources'> => {
  const sources = CAUTION_SOURCES[about];
  return sources === undefined ? {} : { sources: [...sources] };
};

/** Zoanthids hold it, which are kept among soft corals; of what corals are kept no record tells. */
const PALYTOXIN: Caution = {
  kind: 'toxin',
  severity: 'dangerous',
  species: [],
  message: 'caution.palytoxin',
  ...sourced('palytoxin'),
};

function hazardsOf(all: readonly string[], bySpecies: Records): Caution[] {
  const byKind = new Map<string, { kind: Hazard['kind']; severity: Hazard['severity']; species: string[] }>();
  for (const id of all) {
    for (const { kind, severity } of bySpecies.get(id)?.hazards ?? []) {
      const key = `${kind} ${severity}`;
      const entry = byKind.get(key) ?? { kind, severity, species: [] };
      if (!entry.species.includes(id)) entry.species.push(id);
      byKind.set(key, entry);
    }
  }
  return [...byKind.values()].map(({ kind, severity, species }) => ({
    kind,
    severity,
    species,
    message: `caution.${kind}.${severity}`,
    ...sourced(kind),
  }));
}

/** The dangerous first, then by message. */
const byGravity = (one: Caution, other: Caution): number =>
  one.severity === other.severity ? (one.message < other.message ? -1 : 1) : one.severity === 'dangerous' ? -1 : 1;

function protectionOf(all: readonly string[], bySpecies: Records): Caution[] {
  const listed = all.flatMap((id) => {
    const { iucn, cites } = bySpecies.get(id)?.conservation ?? {};
    const isListed = cites !== undefined || ['VU', 'EN', 'CR', 'EW'].includes(iucn?.category ?? '');
    return isListed ? [{ id, sources: [iucn?.source ?? [], cites?.source ?? []].flat() }] : [];
  });
  const sources = [...new Set(listed.flatMap((one) => one.sources))].sort();
  return dutyOf(
    'protected',
    listed.map(({ id }) => id),
    'caution.protected',
  ).map((caution) => (sources.length === 0 ? caution : { ...caution, sources }));
}

const dutyOf = (kind: Caution['kind'], species: string[], message: string): Caution[] =>
  species.length === 0 ? [] : [{ kind, severity: 'duty', species, message, ...sourced(message.slice('caution.'.length)) }];
