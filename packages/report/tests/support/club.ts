/** A small club tank, invented, for the tests of what is said about it. */
import { type Library, libraryOf } from '@commensal/core';
import type { Finding, LeftOut, Plan, Situation, SpeciesRecord, Summary, Versions } from '@commensal/schema';
import { en } from '../../src/en.js';
import { namesIn } from '../../src/names.js';
import type { Voice } from '../../src/voice.js';

const recordOf = (scientificName: string, names: SpeciesRecord['vernacularNames']): SpeciesRecord => {
  const [genus = ''] = scientificName.split(' ');
  return {
    $schema: 'https://commensal.example/schema/1.0/species.schema.json',
    id: scientificName.toLowerCase().replace(' ', '-'),
    addedIn: '2026.1',
    taxon: { scientificName, genus, family: 'Inventidae' },
    vernacularNames: names,
    form: 'fish',
    sources: [],
  };
};

/** One with names in several languages, one whose name begins with its owner, one without an English name, one replaced. */
export const library: Library = libraryOf([
  recordOf('Vigilia prima', [
    { name: 'Lampenfisch', language: 'de' },
    { name: 'lamp fish', language: 'en-GB' },
    { name: 'lantern fish', language: 'en' },
  ]),
  recordOf('Vigilia secunda', [{ name: "Moll's perch", language: 'en' }]),
  recordOf('Vigilia tertia', [{ name: 'Nachtfisch', language: 'de' }]),
  { ...recordOf('Vigilia vetus', [{ name: 'old lamp fish', language: 'en' }]), deprecatedIn: '2026.2', replacedBy: 'vigilia-prima' },
]);

export const situation: Situation = {
  $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
  title: 'The tank by the stairs',
  date: '2027-03-01',
  tank: { water: { value: 100, unit: 'L' } },
  residents: [
    { id: 'wick', name: 'Wick', species: 'vigilia-prima' },
    { id: 'moll', species: 'vigilia-secunda' },
    { id: 'choir', name: 'Choir', species: 'vigilia-tertia', count: 3 },
  ],
};

export const voiceIn = (units: Voice['units'], about: Situation = situation, language = 'en'): Voice => ({
  catalogue: en,
  units,
  names: namesIn(about, library, language),
});

export const metric: Voice = voiceIn('metric');
export const us: Voice = voiceIn('us');

/** Lines that were set within the columns as one line; numbers and units with an ordinary space between them. */
export const plain = (text: string): string => text.replaceAll('\u00A0', ' ');

export const findingOf = (more: Partial<Finding>): Finding => ({
  key: 'invented:animal=wick',
  rule: 'invented',
  outcome: 'failed',
  level: 'warning',
  subjects: [{ id: 'wick', role: 'animal' }],
  message: 'care-tier.unknown',
  data: {},
  when: null,
  basis: 'practice',
  ...more,
});

/** One animal in reach of another's mouth. */
export const swallowing = (predator: string, prey: string, more: Partial<Finding> = {}): Finding =>
  findingOf({
    key: `gape:predator=${predator},prey=${prey}`,
    rule: 'gape',
    message: 'gape.fitsFrom',
    level: 'error',
    when: '2027-09-14',
    subjects: [
      { id: predator, role: 'predator' },
      { id: prey, role: 'prey' },
    ],
    data: {
      interest: { keys: ['habitual'] },
      predatorLength: { value: 12.5, unit: 'cm' },
      preyLength: { value: 6, unit: 'cm' },
      limit: { value: 2, unit: 'cm' },
      preyDepth: { value: 1.5, unit: 'cm' },
      lastSafeDay: { date: '2027-09-13' },
    },
    ...more,
  });

export const nothing: Summary = {
  rules: {},
  failed: { error: 0, warning: 0, note: 0 },
  cantTell: { error: 0, warning: 0, note: 0 },
  accepted: 0,
};

export const versions: Versions = { code: '1.2.3', schema: '1.0', data: '2026.1' };

/** A plan in which nothing is wished for, and what else is passed in. */
export const planOf = (more: Partial<Plan> = {}): Plan => ({
  $schema: 'https://commensal.example/schema/1.0/plan.schema.json',
  date: '2027-03-01',
  chosen: [],
  introductions: [],
  leftOut: [],
  proven: true,
  gap: 0,
  worth: { priority: 0, animals: 0 },
  equals: { weighed: 1, all: true },
  order: { proven: true, cost: 0, atLeast: 0 },
  alternatives: [],
  ifChanged: [],
  findings: [],
  summary: nothing,
  cautions: [],
  staleAcceptances: [],
  versions,
  ...more,
});

/** A wish that nothing speaks against, and what else is passed in. */
export const leftOutOf = (more: Partial<LeftOut> = {}): LeftOut => ({
  species: 'vigilia-secunda',
  count: 1,
  because: [],
  conflict: { species: [], residents: [], minimal: true },
  rather: [],
  wouldNeed: [],
  wouldNeedTogether: [],
  ...more,
});
