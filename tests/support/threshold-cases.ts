/** Situations in which thresholds decide that few other situations hang on: what stands in where records are silent, and who counts as smaller. */
import { libraryOf } from '@commensal/core';
import type { Newcomer, Resident, Situation, SpeciesRecord } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import type { Case } from '../sentences/situations.js';

const $schema = 'https://commensal.example/schema/1.0/situation.schema.json';
const cm = (value: number): { value: number; unit: 'cm' } => ({ value, unit: 'cm' });

const resident = (species: string, lengthCm: number): Resident => ({ id: species, species, length: cm(lengthCm), enteredOn: '2027-01-20' });
const comer = (species: string, lengthCm?: number, count = 1): Newcomer => ({
  species,
  count,
  ...(lengthCm === undefined ? {} : { length: cm(lengthCm) }),
});

const tankOf = (rockKg: number, more: Partial<Situation['tank']> = {}): Situation['tank'] => ({
  water: { value: 240, unit: 'L' },
  length: cm(120),
  width: cm(45),
  rock: { mass: { value: rockKg, unit: 'kg' } },
  ...more,
});

const sceneOf = (tank: Situation['tank'], residents: Resident[], animals: Newcomer[] = []): Situation => ({
  $schema,
  date: '2027-03-01',
  tank,
  residents,
  ...(animals.length > 0 ? { introductions: [{ date: '2027-04-01', animals }] } : {}),
});

/** Records that say nothing of a tank's age. */
const ageless = records.map((record): SpeciesRecord => {
  const { tankAge: _, ...needs } = record.needs ?? {};
  return { ...record, needs };
});

/** Of one species it is not on record what it is fed. */
const unfed = (id: string): SpeciesRecord[] =>
  records.map((record): SpeciesRecord => {
    const { dailyFeed: _, ...feeding } = record.feeding ?? {};
    return record.id === id ? { ...record, feeding } : record;
  });

const rows: readonly (readonly [name: string, situation: Situation, from?: readonly SpeciesRecord[]])[] = [
  [
    'an anemone and one that lives on copepods, in a tank of 200 days',
    sceneOf(tankOf(30, { cycledOn: '2026-09-13' }), [], [comer('entacmaea-quadricolor'), comer('synchiropus-splendidus')]),
    ageless,
  ],
  [
    'a ration that is not on record, over a filter',
    sceneOf(
      tankOf(30, { filter: { area: { value: 40, unit: 'm2' } }, cycledOn: '2026-09-13' }),
      [resident('gramma-loreto', 6)],
      [comer('zebrasoma-flavescens', 8, 8)],
    ),
    unfed('zebrasoma-flavescens'),
  ],
  [
    'a ration that is not on record, in a batch',
    sceneOf(tankOf(30), [resident('paracanthurus-hepatus', 10)], [comer('zebrasoma-flavescens', 8)]),
    unfed('zebrasoma-flavescens'),
  ],
  [
    'a ruler that attacks what is smaller',
    sceneOf(tankOf(8), [resident('pseudocheilinus-hexataenia', 8), resident('acreichthys-tomentosus', 6.4)]),
  ],
  [
    'a newcomer that attacks what is smaller',
    sceneOf(tankOf(8), [resident('cephalopholis-miniata', 6)], [comer('pseudocheilinus-hexataenia', 8)]),
  ],
];

/** Each is checked with one threshold changed at a time. */
export const thresholdCases: readonly Case[] = rows.map(([name, situation, from = records]) => ({
  name,
  situation,
  library: libraryOf(from, standIns),
}));
