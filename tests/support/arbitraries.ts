import type { Newcomer, Provisions, Resident, Situation, SpeciesRecord, Wish } from '@commensal/schema';
import { dayOf, isoOf, type Library, libraryOf } from '@commensal/core';
import { records as sample, standIns } from '@commensal/species-sample';
import fc from 'fast-check';

/** A situation with the records it is judged by; `invented` are those made up for it. */
export interface Scene {
  readonly situation: Situation;
  readonly invented: readonly SpeciesRecord[];
  readonly withStandIns: boolean;
}

/** Generated records beside all of the sample. */
export const libraryFor = ({ invented, withStandIns }: Scene): Library =>
  libraryOf([...invented, ...sample], withStandIns ? standIns : undefined);

export const START = '2027-03-01';
export const dayAfter = (days: number): string => isoOf(dayOf(START) + days);

/** A part of a record that is there more often than not. */
const mostly = <Value>(value: fc.Arbitrary<Value>): fc.Arbitrary<Value | undefined> => fc.option(value, { nil: undefined, freq: 6 });

/** A part of a record that is there one time in three. */
const rarely = <Value>(value: fc.Arbitrary<Value>): fc.Arbitrary<Value | undefined> =>
  fc.oneof(fc.constant(undefined), fc.constant(undefined), value);

/** Takes out what is undefined, as a document has it. */
const written = <Value extends object>(value: Value): Value => JSON.parse(JSON.stringify(value));

const tenths = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(least * 10), max: Math.round(most * 10) }).map((whole) => whole / 10);
const thousandths = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(least * 1000), max: Math.round(most * 1000) }).map((whole) => whole / 1000);

/** A figure, bare or with a band around it. */
const figure = <Unit extends string>(
  value: fc.Arbitrary<number>,
  unit: Unit,
): fc.Arbitrary<{ value: number; low?: number; high?: number; unit: Unit; basis: 'practice' | 'recalled' }> =>
  fc
    .record({
      value,
      below: thousandths(0.6, 1),
      above: thousandths(1, 1.5),
      bare: fc.boolean(),
      basis: fc.constantFrom('practice' as const, 'recalled' as const),
    })
    .map(({ value: centre, below, above, bare, basis }) => ({
      value: centre,
      ...(bare ? {} : { low: centre * below, high: centre * above }),
      unit,
      basis,
    }));

const range = <Unit extends string>(
  least: fc.Arbitrary<number>,
  span: fc.Arbitrary<number>,
  unit: Unit,
): fc.Arbitrary<{ low: number; high: number; unit: Unit; basis: 'practice' }> =>
  fc.tuple(least, span).map(([low, more]) => ({ low, high: low + more, unit, basis: 'practice' }));

const said = <Value>(...values: readonly Value[]): fc.Arbitrary<{ value: Value; basis: 'practice' }> =>
  fc.constantFrom(...values).map((value) => ({ value, basis: 'practice' as const }));

const step = fc.integer({ min: 0, max: 4 });
const recalled = fc.constant('recalled' as const);

const harm = fc.record({
  how: fc.constantFrom('eats', 'tears', 'nips', 'stings'),
  what: fc.subarray(['fishes', 'small-fishes', 'slow-fishes', 'shrimps', 'crabs', 'snails', 'anemones', 'stony-corals', 'clams'] as const, {
    minLength: 1,
    maxLength: 3,
  }),
  harm: fc.constantFrom('kills', 'wounds', 'pesters'),
  often: fc.constantFrom('as-a-rule', 'at-times'),
  upToShare: fc.constantFrom(undefined, undefined, 0.3, 1),
  basis: recalled,
});

/** Ids that share genera and families, so that likeness matters. */
export const INVENTED = ['unus-primus', 'unus-alter', 'duo-primus', 'tres-primus'] as const;
const FAMILIES: Readonly<Record<string, string>> = { unus: 'Exemplidae', duo: 'Exemplidae', tres: 'Specimenidae' };

/** A record in which any figure may be missing. */
const inventedRecord = (id: string): fc.Arbitrary<SpeciesRecord> => {
  const [genus = '', epithet = ''] = id.split('-');
  const Genus = genus.charAt(0).toUpperCase() + genus.slice(1);
  return fc
    .record({
      form: fc.constantFrom('fish', 'fish', 'fish', 'fish', 'fish', 'shrimp', 'crab', 'snail', 'anemone'),
      kinGroup: mostly(said('these', 'those')),
      size: fc.record({
        maximum: mostly(figure(tenths(4, 40), 'cm')),
        captiveAdult: mostly(figure(tenths(4, 30), 'cm')),
        entry: mostly(range(tenths(2, 8), tenths(0, 6), 'cm')),
        totalPerStandard: mostly(figure(thousandths(1.1, 1.4), '1')),
        weight: rarely(
          fc.record({ a: thousandths(0.005, 0.03), b: thousandths(2.8, 3.2), lengthType: fc.constant('TL'), basis: recalled }),
        ),
      }),
      growth: fc.record({ asymptoticLength: mostly(figure(tenths(4, 40), 'cm')), rate: mostly(figure(thousandths(0.1, 2.5), '/a')) }),
      shape: fc.record({
        bodyDepth: mostly(figure(thousandths(0.05, 0.6), '1')),
        lowerJaw: mostly(figure(thousandths(0.05, 0.3), '1')),
        gapeClass: mostly(said('engulfs', 'engulfs', 'distensible', 'notGapeLimited')),
      }),
      feeding: fc.record({
        eats: mostly(
          fc
            .subarray(['fishes', 'shrimps', 'crabs', 'algae'] as const, { minLength: 1 })
            .map((foods) => ({ foods, basis: 'practice' as const })),
        ),
        fishEating: mostly(said('habitual', 'opportunist', 'noneRecorded')),
        cleans: rarely(said(true, false)),
        mode: rarely(said('hunter', 'picker', 'stinger')),
        pace: mostly(said('quick', 'steady', 'slow')),
        specialist: rarely(fc.record({ food: fc.constantFrom('algae', 'copepods'), obligate: fc.boolean(), basis: recalled })),
        feedings: rarely(figure(fc.integer({ min: 1, max: 6 }), '/d')),
        dailyFeed: rarely(figure(thousandths(0.01, 0.1), '1')),
      }),
      conduct: fc.record({
        pugnacity: mostly(
          fc.record({
            ownKind: step,
            genus: step,
            kin: step,
            others: step,
            newcomers: step,
            smaller: rarely(step),
            lookAlikes: rarely(step),
            maleToMale: rarely(step),
            maleToFemale: rarely(step),
            basis: fc.constant('practice' as const),
          }),
        ),
        resembles: rarely(fc.record({ species: fc.subarray([...INVENTED], { minLength: 1 }), basis: recalled })),
        harms: mostly(fc.array(harm, { maxLength: 2 })),
        escapes: mostly(said('jumps', 'climbs', 'stays')),
        rockClaim: mostly(figure(fc.constantFrom(0, 2, 4.5, 8, 15), 'L')),
        wayOfLiving: mostly(said('grazes-rock', 'holes-in-rock', 'open-water')),
        company: mostly(
          fc.record({ kind: fc.constantFrom('solitary', 'pair', 'harem', 'group', 'any'), basis: fc.constant('practice' as const) }),
        ),
      }),
      needs: fc.record({
        careTier: mostly(said(1, 2, 3)),
        provisions: fc.option(fc.constant<Provisions>({ list: ['quiet-company'], basis: 'practice' }), { nil: undefined, freq: 1 }),
        temperature: mostly(range(tenths(20, 25), tenths(1, 5), 'Cel')),
        temperatureLimits: mostly(range(tenths(15, 20), tenths(10, 12), 'Cel')),
        salinity: mostly(range(tenths(31, 34), tenths(2, 4), '1')),
        activity: mostly(said('roams', 'cruises', 'perches', 'crawls', 'fixed')),
        light: rarely(said('dim', 'strong', 'any')),
        flow: rarely(said('gentle', 'strong', 'any')),
        sandDepth: rarely(figure(tenths(1, 8), 'cm')),
        sandGrain: rarely(said('fine', 'coarse', 'any')),
        shelter: rarely(
          fc.array(
            fc.record({ kind: fc.constantFrom('sand-bed', 'burrow', 'cave', 'hole', 'branches'), optional: fc.boolean(), basis: recalled }),
            { minLength: 1, maxLength: 2 },
          ),
        ),
        partners: rarely(
          fc.array(
            fc.record({
              species: fc.constantFrom(...INVENTED),
              kind: fc.constantFrom('host', 'guest', 'burrow-mate'),
              optional: fc.boolean(),
              basis: recalled,
            }),
            { minLength: 1, maxLength: 2 },
          ),
        ),
        tankAge: rarely(figure(fc.integer({ min: 30, max: 300 }), 'd')),
      }),
      introduction: mostly(said('ordinary', 'ordinary', 'scavenger', 'early', 'last')),
    })
    .map((parts) =>
      written({
        $schema: 'https://commensal.example/schema/1.0/species.schema.json',
        id,
        addedIn: '2026.1',
        taxon: { scientificName: `${Genus} ${epithet}`, genus: Genus, family: FAMILIES[genus] ?? '' },
        vernacularNames: [{ name: `${epithet} example`, language: 'en' }],
        sources: [],
        ...parts,
      } as SpeciesRecord),
    );
};

export const inventedRecords: fc.Arbitrary<readonly SpeciesRecord[]> = fc.tuple(...INVENTED.map(inventedRecord));

/** Invented species most of the time, so that everything about them varies; else one of the sample. */
const species: fc.Arbitrary<string> = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom<string>(...INVENTED) },
  { weight: 1, arbitrary: fc.constantFrom(...sample.map(({ id }) => id)) },
);

const bodyLength = fc.option(
  tenths(2, 30).map((value) => ({ value, unit: 'cm' as const })),
  { nil: undefined, freq: 5 },
);

const resident = (id: string): fc.Arbitrary<Resident> =>
  fc
    .record({
      species,
      count: fc.constantFrom(1, 1, 1, 2, 3),
      length: bodyLength,
      enteredOn: fc.option(fc.integer({ min: -300, max: 0 }).map(dayAfter), { nil: undefined }),
      sex: fc.constantFrom(undefined, undefined, 'male' as const, 'female' as const),
    })
    .map((told) => ({ id, ...told }) as Resident);

const newcomer = (id: string): fc.Arbitrary<Newcomer> =>
  fc
    .record({
      species,
      count: fc.constantFrom(1, 1, 2),
      length: bodyLength,
      sex: fc.constantFrom(undefined, undefined, undefined, 'male' as const, 'female' as const),
      purchasedOn: rarely(fc.integer({ min: -60, max: 0 }).map(dayAfter)),
    })
    .map((told) => ({ id, ...told }) as Newcomer);

const shelterCount = mostly(fc.integer({ min: 0, max: 3 }));

/** A tank in which room, rock and water are now enough, now too little, now not told. */
const tank: fc.Arbitrary<Situation['tank']> = fc
  .record({
    water: tenths(50, 800).map((value) => ({ value, unit: 'L' })),
    length: mostly(tenths(40, 250).map((value) => ({ value, unit: 'cm' }))),
    width: mostly(tenths(20, 90).map((value) => ({ value, unit: 'cm' }))),
    rock: mostly(
      fc.oneof(
        tenths(2, 40).map((value) => ({ envelope: { value, unit: 'L' } })),
        tenths(3, 60).map((value) => ({ mass: { value, unit: 'kg' } })),
      ),
    ),
    temperature: mostly(fc.tuple(tenths(20, 26), tenths(0, 2)).map(([low, swing]) => ({ low, high: low + swing, unit: 'Cel' }))),
    salinity: mostly(tenths(32, 36).map((value) => ({ value, unit: '1' }))),
    acidity: rarely(tenths(7.8, 8.4).map((value) => ({ value, unit: '[pH]' }))),
    cycledOn: mostly(fc.integer({ min: -400, max: 40 }).map(dayAfter)),
    sand: mostly(
      fc.record({
        depth: mostly(tenths(0, 10).map((value) => ({ value, unit: 'cm' }))),
        grain: mostly(fc.constantFrom('fine', 'coarse')),
      }),
    ),
    shelters: mostly(fc.record({ caves: shelterCount, holes: shelterCount, burrows: shelterCount, branches: shelterCount })),
    cover: mostly(fc.constantFrom('open', 'net', 'lid')),
    gap: rarely(tenths(0, 4).map((value) => ({ value, unit: 'cm' }))),
    pumps: mostly(fc.constantFrom('guarded', 'unguarded')),
    light: mostly(fc.constantFrom('dim', 'moderate', 'strong')),
    flow: mostly(fc.constantFrom('gentle', 'moderate', 'strong')),
    feedingsPerDay: mostly(fc.integer({ min: 0, max: 6 })),
    foods: mostly(fc.subarray(['algae', 'copepods', 'shrimps'])),
    kept: mostly(fc.subarray(['stony-corals', 'clams'])),
    copper: mostly(fc.constantFrom('never', 'removed', 'present')),
    feed: rarely(
      fc.record({
        mass: tenths(0.5, 20).map((value) => ({ value, unit: 'g' })),
        protein: mostly(thousandths(0.08, 0.5).map((value) => ({ value, unit: '1' }))),
      }),
    ),
    filter: mostly(tenths(0.1, 12).map((value) => ({ area: { value, unit: 'm2' } }))),
    disease: rarely(fc.integer({ min: -200, max: 0 }).map((day) => ({ lastSeen: dayAfter(day) }))),
    holdingTank: rarely(fc.constantFrom({ lots: 1 }, { lots: 2 })),
  })
  .map((told) => told as Situation['tank']);

export interface SceneLimits {
  readonly residents?: number;
  readonly batches?: number;
  readonly wishes?: number;
}

/** A small tank: few animals, so that what decides is not drowned in what does not. */
export function scenes({ residents = 3, batches = 2, wishes = 0 }: SceneLimits = {}): fc.Arbitrary<Scene> {
  return fc
    .record({
      invented: inventedRecords,
      withStandIns: fc.boolean(),
      tank,
      keeper: mostly(
        fc.record({ careTier: fc.integer({ min: 1, max: 3 }), provisions: fc.subarray(['quiet-company', 'feeding-by-hand', 'tight-lid']) }),
      ),
      residents: fc.tuple(
        ...Array.from({ length: residents }, (_, index) => fc.option(resident(`r${index}`), { nil: undefined, freq: 2 })),
      ),
      batches: fc.tuple(
        ...Array.from({ length: batches }, (_, batch) =>
          fc.option(
            fc.record({
              day: fc.integer({ min: 0, max: 6 }).map((month) => month * 20),
              animals: fc.tuple(newcomer(`n${batch}a`), fc.option(newcomer(`n${batch}b`), { nil: undefined })),
            }),
            { nil: undefined, freq: 3 },
          ),
        ),
      ),
      wishes: fc.array(wish, { maxLength: wishes }),
      removal: fc.option(fc.integer({ min: 10, max: 200 }), { nil: undefined, freq: 1 }),
      relaid: fc.option(
        fc.integer({ min: 0, max: 6 }).map((month) => month * 20),
        { nil: undefined, freq: 1 },
      ),
      horizonDays: fc.constantFrom(undefined, undefined, 100, 400),
    })
    .map(
      ({
        invented,
        withStandIns,
        tank: told,
        keeper,
        residents: there,
        batches: planned,
        wishes: wanted,
        removal,
        relaid,
        horizonDays,
      }) => {
        const residentsThere = there.filter((one) => one !== undefined);
        const introductions = planned
          .filter((batch) => batch !== undefined)
          .map(({ day, animals }) => ({ date: dayAfter(day), animals: animals.filter((animal) => animal !== undefined) }));
        const first = residentsThere[0];
        const situation = written({
          $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
          date: START,
          keeper,
          tank: told,
          residents: residentsThere,
          introductions,
          wishes: wanted,
          events: [
            ...(removal === undefined || first === undefined
              ? []
              : [{ kind: 'animal-removed', date: dayAfter(removal), animal: first.id }]),
            ...(relaid === undefined ? [] : [{ kind: 'rock-relaid', date: dayAfter(relaid) }]),
          ],
          settings: { horizonDays },
        });
        return { situation: situation as unknown as Situation, invented, withStandIns };
      },
    );
}

const wish: fc.Arbitrary<Wish> = fc
  .record({
    species,
    least: fc.constantFrom(1, 1, 2),
    more: fc.constantFrom(0, 0, 1),
    priority: fc.integer({ min: 1, max: 10 }),
    length: fc.constantFrom(undefined, undefined, 6),
  })
  .map(
    ({ species: wanted, least, more, priority, length }) =>
      ({
        species: wanted,
        count: [least, least + more],
        priority,
        ...(length === undefined ? {} : { length: { value: length, unit: 'cm' } }),
      }) as Wish,
  );

/** Fishes of the sample that are small enough, when sold, to be swallowed by one another, or swallow; and those that claim rock. */
const CROWD = sample.filter(({ form, size }) => form === 'fish' && size?.entry !== undefined).map(({ id }) => id);

/**
 * A wide tank with little rock, a keeper who can keep anything, and wishes for fishes of the sample: what is left to decide is
 * who goes in before whom, how long, and who claims what.
 */
export const crowdedScenes = (wishes: number): fc.Arbitrary<Scene> =>
  fc
    .record({
      wanted: fc.uniqueArray(fc.tuple(fc.constantFrom(...CROWD), fc.integer({ min: 1, max: 10 }), fc.constantFrom(1, 1, 2)), {
        minLength: 2,
        maxLength: wishes,
        selector: ([id]) => id,
      }),
      there: fc.option(fc.tuple(fc.constantFrom(...CROWD), tenths(4, 20)), { nil: undefined }),
      rock: tenths(2, 30),
      whenUncertain: fc.constantFrom('avoid', 'avoid', 'allow', 'exclude'),
      gapDays: fc.constantFrom(undefined, 14, 90),
    })
    .map(({ wanted, there, rock, whenUncertain, gapDays }) => ({
      invented: [],
      withStandIns: true,
      situation: written({
        $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
        date: START,
        keeper: { careTier: 3 },
        tank: {
          water: { value: 4000, unit: 'L' },
          length: { value: 400, unit: 'cm' },
          width: { value: 120, unit: 'cm' },
          rock: { envelope: { value: rock, unit: 'L' } },
          temperature: { low: 25, high: 26, unit: 'Cel' },
          salinity: { value: 34.5, unit: '1' },
        },
        residents: there === undefined ? [] : [{ id: 'there', species: there[0], length: { value: there[1], unit: 'cm' } }],
        wishes: wanted.map(([species, priority, most]) => ({ species, priority, count: [1, most] })),
        settings: { whenUncertain, ...(gapDays === undefined ? {} : { thresholds: { 'entry-gap': { gapDays } } }) },
      }) as unknown as Situation,
    }));
