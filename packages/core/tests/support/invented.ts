import type { Situation, SpeciesRecord, StandInError, StandInGroup, StandIns } from '@commensal/schema';

const BASE = 'https://commensal.example/schema/1.0';

/** An invented record: genus and species from the id, the family Exemplidae, a fish, and what else is passed in. */
export function inventedSpecies(id: string, more: Partial<SpeciesRecord> = {}): SpeciesRecord {
  const [genus = '', epithet = ''] = id.split('-');
  const capital = genus.charAt(0).toUpperCase() + genus.slice(1);
  return {
    $schema: `${BASE}/species.schema.json`,
    id,
    addedIn: '2026.1',
    taxon: { scientificName: `${capital} ${epithet}`, genus: capital, family: 'Exemplidae' },
    vernacularNames: [{ name: `${epithet} example`, language: 'en' }],
    form: 'fish',
    sources: [],
    ...more,
  };
}

/** An invented tank of 240 litres on 2027-03-01, and what else is passed in. */
export const inventedSituation = (more: Partial<Situation> = {}): Situation => ({
  $schema: `${BASE}/situation.schema.json`,
  date: '2027-03-01',
  tank: { water: { value: 240, unit: 'L' } },
  ...more,
});

/** Invented stand-ins. */
export const inventedStandIns = (groups: StandInGroup[], errors: StandInError[] = []): StandIns => ({
  $schema: `${BASE}/stand-ins.schema.json`,
  groups,
  errors,
});

/** The same value, in which every attempt to change anything throws. */
export function deepFrozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.freeze(value);
    for (const inner of Object.values(value)) deepFrozen(inner);
  }
  return value;
}
