import type { Situation, SpeciesRecord } from '@commensal/schema';

/**
 * A tank of which everything is told and in which most of what is asked for is provided, so that what cannot be told in it hangs on the
 * records alone: 400 litres, open on top, with corals in it. Ways out and corals to be nipped are there on purpose, so that the rules
 * about them ask. Made up here; a tank like many.
 */
const TANK: Situation['tank'] = {
  water: { value: 400, unit: 'L' },
  length: { value: 150, unit: 'cm' },
  width: { value: 60, unit: 'cm' },
  height: { value: 60, unit: 'cm' },
  rock: { envelope: { value: 60, unit: 'L' } },
  temperature: { low: 25, high: 26, unit: 'Cel' },
  salinity: { value: 35, unit: '1' },
  acidity: { value: 8.2, unit: '[pH]' },
  cycledOn: '2024-01-01',
  sand: { depth: { value: 10, unit: 'cm' }, grain: 'fine' },
  shelters: { caves: 4, holes: 12, burrows: 4, branches: 4 },
  cover: 'open',
  pumps: 'unguarded',
  light: 'moderate',
  flow: 'moderate',
  feedingsPerDay: 3,
  foods: [
    'fishes',
    'shrimps',
    'crabs',
    'snails',
    'bivalves',
    'urchins',
    'worms',
    'copepods',
    'zooplankton',
    'corals',
    'anemones',
    'sponges',
    'tunicates',
    'algae',
    'detritus',
    'scales-and-mucus',
    'parasites',
  ],
  feed: { mass: { value: 5, unit: 'g' }, protein: { value: 0.1, unit: '1' } },
  filter: { area: { value: 20, unit: 'm2' } },
  copper: 'never',
  kept: ['stony-corals', 'soft-corals', 'clams', 'sponges'],
  holdingTank: { lots: 9 },
};

const FIRST = { purchasedOn: '2026-11-01', date: '2027-01-01' };
const SECOND = { purchasedOn: '2027-01-05', date: '2027-03-01' };

/** The tank of reference with one species alone, or two of which the first comes two months before the second. */
export function referenceSituation(first: SpeciesRecord, second?: SpeciesRecord): Situation {
  const entry = ({ purchasedOn, date }: typeof FIRST, { id }: SpeciesRecord, as: string) => ({
    date,
    animals: [{ id: as, species: id, purchasedOn }] as const,
  });
  return {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: FIRST.date,
    keeper: { careTier: 2, provisions: [] },
    tank: TANK,
    introductions: [entry(FIRST, first, 'first'), ...(second === undefined ? [] : [entry(SECOND, second, 'second')])].map(
      ({ date, animals: [animal] }) => ({ date, animals: [{ ...animal }] }),
    ),
  };
}
