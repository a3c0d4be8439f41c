/** Made-up tanks of real species, the same in every run. */
import { libraryOf, stockOf } from '@commensal/core';
import { records, standIns } from '@commensal/species-sample';
import { randomFrom } from './measure.mjs';

export const library = libraryOf(records, standIns);
const SCHEMA = 'https://commensal.example/schema/1.0/situation.schema.json';

/** A tank of so many animals: half residents of random length, half newcomers a month apart. */
export function situationOf(animals, seed) {
  const random = randomFrom(seed);
  const pick = () => records[Math.floor(random() * records.length)];
  const lengthOf = (record) => {
    const entry = record.size?.entry;
    const usual = entry?.value ?? ((entry?.low ?? 4) + (entry?.high ?? 8)) / 2;
    return { value: Math.round(usual * (0.8 + random()) * 10) / 10, unit: 'cm' };
  };
  const line = (index) => {
    const record = pick();
    return { id: `a${index}`, species: record.id, length: lengthOf(record) };
  };
  const half = Math.floor(animals / 2);
  return {
    $schema: SCHEMA,
    date: '2027-03-01',
    keeper: { careTier: 2 },
    tank: {
      water: { value: 400, unit: 'L' },
      length: { value: 150, unit: 'cm' },
      width: { value: 55, unit: 'cm' },
      rock: { mass: { value: 45, unit: 'kg' } },
      cycledOn: '2026-09-01',
      temperature: { low: 24.5, high: 26, unit: 'Cel' },
      salinity: { value: 34.5, unit: '1' },
      acidity: { value: 8.2, unit: '[pH]' },
      sand: { depth: { value: 4, unit: 'cm' }, grain: 'fine' },
      cover: 'lid',
      pumps: 'guarded',
      light: 'moderate',
      flow: 'moderate',
      feedingsPerDay: 2,
      foods: ['zooplankton', 'algae', 'shrimps'],
      copper: 'never',
      kept: [],
    },
    residents: Array.from({ length: half }, (_, index) => ({ ...line(index), enteredOn: '2026-12-01' })),
    introductions: Array.from({ length: animals - half }, (_, index) => ({
      date: `2027-${String(4 + (index % 6)).padStart(2, '0')}-01`,
      animals: [line(half + index)],
    })),
  };
}

export const tankOf = (animals, seed) => stockOf(situationOf(animals, seed), library).stock;

/** So many tanks of one size, so that no row hangs on the luck of one. */
export const tanksOf = (animals, count = 6) => Array.from({ length: count }, (_, at) => tankOf(animals, 11 + at));
