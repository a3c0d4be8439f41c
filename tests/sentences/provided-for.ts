/** Situations that make the rules on harm, shelter, food, escape and maturity speak: the sample's records with needs dealt out among them. */
import { type Library, libraryOf } from '@commensal/core';
import type { Situation, SpeciesRecord } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import type { Case } from './situations.js';

type Conduct = NonNullable<SpeciesRecord['conduct']>;
type Harm = NonNullable<Conduct['harms']>[number];
type Needs = NonNullable<SpeciesRecord['needs']>;
type Feeding = NonNullable<SpeciesRecord['feeding']>;
type Tank = Situation['tank'];

const practice = { basis: 'practice' } as const;
const cm = (value: number) => ({ value, unit: 'cm' as const });
const dealt = <T>(cards: readonly T[], index: number): T => cards[index % cards.length] as T;

/** The sample with something more in each record. */
const dealing = (
  more: (record: SpeciesRecord, index: number) => { conduct?: Partial<Conduct>; needs?: Partial<Needs>; feeding?: Partial<Feeding> },
): Library =>
  libraryOf(
    records.map((record, index): SpeciesRecord => {
      const { conduct, needs, feeding } = more(record, index);
      return {
        ...record,
        conduct: { ...record.conduct, ...conduct },
        needs: { ...record.needs, ...needs },
        feeding: { ...record.feeding, ...feeding },
      };
    }),
    standIns,
  );

const TANK: Tank = { water: { value: 60, unit: 'L' }, length: cm(60), width: cm(30) };

/** Some of the sample live in the tank, others come in ten days apart. */
function scene(tank: Partial<Tank>, more: Partial<Situation> = {}, step = 5): Situation {
  const some = records.filter((_, index) => index % step === 0);
  return {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: '2027-03-01',
    keeper: { careTier: 1 },
    tank: { ...TANK, ...tank },
    residents: some
      .slice(0, 9)
      .map(({ id }, index) => ({ id: `animal-${index}`, species: id, length: cm(3 + (index % 4) * 3), enteredOn: '2027-02-10' })),
    introductions: some
      .slice(9)
      .map(({ id }, index) => ({ date: `2027-0${3 + Math.floor(index / 3)}-${11 + (index % 3) * 5}`, animals: [{ species: id }] })),
    ...more,
  };
}

const ANY: Harm['what'] = [
  'fishes',
  'shrimps',
  'crabs',
  'hermit-crabs',
  'snails',
  'urchins',
  'anemones',
  'stony-corals',
  'soft-corals',
  'clams',
  'sponges',
];

const deeds: readonly Harm[] = (['kills', 'wounds', 'pesters'] as const).flatMap((harm) =>
  (['eats', 'crushes', 'tears', 'nips', 'stings'] as const).flatMap((how) =>
    (['as-a-rule', 'at-times'] as const).flatMap((often): Harm[] => [
      { how, what: ANY, harm, often, ...practice },
      { how, what: ANY, harm, often, upToShare: 0.4, ...practice },
    ]),
  ),
);

const appetites: Case[] = deeds.map((_deed, at): Case => {
  const library = dealing((_, index) => ({ conduct: { harms: [dealt(deeds, at + index * 7)] } }));
  const kept: Tank['kept'] = ['stony-corals', 'clams'];
  return { name: `appetite ${at}`, library, situation: scene(at % 3 === 0 ? {} : { kept }, {}, 5 + (at % 3)) };
});

const suspicions: Case[] = [{}, { kept: ['stony-corals', 'sponges'] as Tank['kept'] }].map((tank, index) => ({
  name: `harm not on record ${index}`,
  library: libraryOf(records, standIns),
  situation: scene(tank as Partial<Tank>),
}));

const SHELTERS = ['sand-bed', 'burrow', 'cave', 'hole', 'branches'] as const;
const PARTNERS = ['host', 'guest', 'burrow-mate'] as const;

const sheltered = (optional: boolean): Library =>
  dealing((_, index) => ({
    needs: {
      shelter: [{ kind: dealt(SHELTERS, Math.floor(index / 5)), optional: optional || index % 2 === 0, ...practice }],
      ...(index % 3 === 0 ? { sandDepth: { low: 4, high: 8, unit: 'cm', ...practice } } : {}),
      ...(index % 2 === 0 ? { sandGrain: { value: dealt(['fine', 'coarse', 'any'] as const, index / 2), ...practice } } : {}),
      partners: [1, 2, 3].slice(0, 1 + (index % 3)).map((step) => ({
        species: (dealt(records, index + step * 3) as SpeciesRecord).id,
        kind: dealt(PARTNERS, index),
        optional,
        ...practice,
      })),
    },
  }));

const shelters: Case[] = [true, false].flatMap((optional) =>
  (
    [
      {},
      { sand: { grain: 'fine' } },
      { sand: { depth: cm(2), grain: 'coarse' } },
      { sand: { depth: cm(2) }, shelters: { caves: 0, holes: 0, burrows: 0, branches: 0 } },
      { sand: { depth: cm(7), grain: 'fine' }, shelters: { caves: 1, holes: 1, burrows: 1, branches: 1 } },
      { sand: { depth: cm(9), grain: 'coarse' }, shelters: { caves: 2, holes: 2, burrows: 2, branches: 2 } },
    ] as Partial<Tank>[]
  ).map((tank, index) => ({ name: `shelter ${index} ${optional}`, library: sheltered(optional), situation: scene(tank) })),
);

const fed: Library = dealing((_, index) => ({
  feeding: {
    ...(index % 2 === 0
      ? { specialist: { food: dealt(['copepods', 'sponges', 'scales-and-mucus'] as const, index), obligate: index % 4 === 0, ...practice } }
      : {}),
    ...(index % 3 === 0
      ? { feedings: index % 2 === 0 ? { value: 1 + (index % 3), unit: '/d', ...practice } : { low: 2, high: 4, unit: '/d', ...practice } }
      : {}),
    pace: { value: dealt(['slow', 'quick', 'steady'] as const, index), ...practice },
  },
}));

const unpaced: Library = libraryOf(
  [...fed.records.values()].map((record, index): SpeciesRecord => {
    const { pace, ...feeding } = record.feeding ?? {};
    return { ...record, feeding: index % 4 === 0 && pace !== undefined ? { ...feeding, pace } : feeding };
  }),
  standIns,
);

const niches: Case[] = (
  [
    {},
    { foods: [], feedingsPerDay: 0 },
    { foods: ['copepods'], feedingsPerDay: 1 },
    { foods: ['copepods', 'sponges', 'scales-and-mucus'], feedingsPerDay: 3, water: { low: 400, high: 4000, unit: 'L' } },
  ] as Partial<Tank>[]
).flatMap((tank, index): Case[] => [
  { name: `food ${index}`, library: fed, situation: scene(tank) },
  { name: `food ${index}, pace unknown`, library: unpaced, situation: scene(tank) },
  { name: `food ${index}, by hand`, library: fed, situation: scene(tank, { keeper: { careTier: 2, provisions: ['feeding-by-hand'] } }) },
]);

const leaving: Library = dealing((_, index) => ({
  conduct: index % 4 === 3 ? {} : { escapes: { value: dealt(['jumps', 'climbs', 'jumps'] as const, index), ...practice } },
  needs: { flow: { value: dealt(['gentle', 'strong'] as const, index), ...practice } },
}));

const escapes: Case[] = (
  [
    {},
    { cover: 'open', pumps: 'unguarded' },
    { cover: 'lid', gap: cm(1) },
    { cover: 'net', gap: cm(2), pumps: 'unguarded' },
    { cover: 'net', gap: { low: 0.5, high: 4, unit: 'cm' } },
  ] as Partial<Tank>[]
).map((tank, index) => ({ name: `escape ${index}`, library: leaving, situation: scene(tank) }));

const aged: Library = dealing((_, index) => ({
  needs:
    index % 2 === 0
      ? { tankAge: index % 4 === 0 ? { value: 180, unit: 'd', ...practice } : { low: 10, high: 200, unit: 'd', ...practice } }
      : {},
}));

const ages: Case[] = [undefined, '2026-12-01', '2026-06-01', '2027-04-01'].map((cycledOn, index) => ({
  name: `maturity ${index}`,
  library: aged,
  situation: scene(cycledOn === undefined ? {} : { cycledOn }),
}));

/** Each of these is checked. */
export const providedFor: readonly Case[] = [...appetites, ...suspicions, ...shelters, ...niches, ...escapes, ...ages];
