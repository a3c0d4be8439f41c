/** Situations and records that between them make every rule speak in every way it can. */
import { type Library, libraryOf, recordOf } from '@commensal/core';
import type { Introduction, Resident, Situation, SpeciesRecord } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import { contestCases } from './contest-cases.js';
import { providedFor } from './provided-for.js';
import { tankCases } from './tank-cases.js';

const $schema = 'https://commensal.example/schema/1.0/situation.schema.json';
const DATE = '2027-03-01';

/** A situation with the records it is judged by. */
export interface Case {
  readonly name: string;
  readonly situation: Situation;
  readonly library: Library;
}

export const sample: Library = libraryOf(records, standIns, 'sample');
const bare: Library = libraryOf(records);

const kg = (value: number) => ({ mass: { value, unit: 'kg' as const } });
const cm = (value: number) => ({ value, unit: 'cm' as const });

const smallTank: Situation['tank'] = {
  water: { value: 60, unit: 'L' },
  length: cm(60),
  width: cm(30),
  rock: kg(8),
  temperature: { low: 24, high: 26, unit: 'Cel' },
  salinity: { value: 34, unit: '1' },
  acidity: { value: 8.2, unit: '[pH]' },
};

const situationOf = (more: Partial<Situation>): Situation => ({ $schema, date: DATE, keeper: { careTier: 1 }, tank: smallTank, ...more });

/** Every so manieth species of the sample; 1 for all. */
const species = (step: number, from = 0): SpeciesRecord[] => records.filter((_, index) => index % step === from);

const residentsOf = (list: readonly SpeciesRecord[], more: Partial<Resident> = {}): Resident[] =>
  list.map(({ id }, index) => ({ id: `animal-${index}`, species: id, length: cm(6), enteredOn: '2027-02-10', ...more }));

/** One a batch, ten days apart. */
const oneByOne = (list: readonly SpeciesRecord[]): Introduction[] =>
  list.map(({ id }, index) => ({
    date: new Date(Date.UTC(2027, 2, 2 + index * 10)).toISOString().slice(0, 10),
    animals: [{ species: id }],
  }));

/** The records without one field, such as `shape.lowerJaw`. */
function without(field: string): Library {
  const [group = '', name] = field.split('.');
  const cut = records.map((record): SpeciesRecord => {
    const copy = structuredClone(record) as unknown as Record<string, Record<string, unknown> | undefined>;
    if (name === undefined) delete copy[group];
    else delete copy[group]?.[name];
    return copy as unknown as SpeciesRecord;
  });
  return libraryOf(cut, standIns);
}

const FIELDS = [
  'kinGroup',
  'size',
  'size.maximum',
  'size.captiveAdult',
  'size.entry',
  'size.totalPerStandard',
  'shape',
  'shape.bodyDepth',
  'shape.lowerJaw',
  'shape.gapeClass',
  'growth',
  'feeding.fishEating',
  'feeding.eats',
  'conduct.harms',
  'conduct.pugnacity',
  'conduct.rockClaim',
  'conduct.company',
  'needs.careTier',
  'needs.provisions',
  'needs.activity',
  'needs.temperature',
  'needs.salinity',
];

/** Kin that go in on different days, and nobody knows how they treat each other. */
const strangeKin: Case = {
  name: 'kin, no conduct.pugnacity',
  library: without('conduct.pugnacity'),
  situation: situationOf({ introductions: oneByOne(records.filter((record) => record.taxon.family === 'Pomacentridae')) }),
};

/** A group without a figure that nothing stands in for. */
const lacking: Case[] = FIELDS.flatMap((field) => {
  const library = without(field);
  const some = species(6);
  return [
    { name: `residents, no ${field}`, library, situation: situationOf({ residents: residentsOf(some, { count: 2 }) }) },
    { name: `newcomers, no ${field}`, library, situation: situationOf({ introductions: oneByOne(some) }) },
    {
      name: `lengths unknown, no ${field}`,
      library,
      situation: situationOf({ residents: some.map(({ id }) => ({ id: `tank-${id}`, species: id })) }),
    },
  ];
});

const tankWithout = (field: keyof Situation['tank']): Situation['tank'] => {
  const { [field]: _, ...rest } = smallTank;
  return rest as Situation['tank'];
};

const tanks: Case[] = (['length', 'width', 'rock', 'temperature', 'salinity', 'acidity'] as const).map((field) => ({
  name: `tank without ${field}`,
  library: sample,
  situation: situationOf({ tank: tankWithout(field), residents: residentsOf(species(5)) }),
}));

const waters: Case[] = [
  { ...smallTank, temperature: { value: 15, unit: 'Cel' as const } },
  { ...smallTank, temperature: { value: 28.5, unit: 'Cel' as const }, salinity: { value: 25, unit: '1' as const } },
  { ...smallTank, acidity: { value: 7.4, unit: '[pH]' as const } },
].map((tank, index) => ({ name: `water ${index}`, library: sample, situation: situationOf({ tank, residents: residentsOf(species(1)) }) }));

/** The sample says nothing of acidity; a record that does. */
const acid: Library = libraryOf(
  records.map((record) => ({
    ...record,
    needs: { ...record.needs, acidity: { low: 8, high: 8.4, unit: '[pH]' as const, basis: 'practice' as const } },
  })),
  standIns,
);

const keepers: Case[] = [undefined, { careTier: 1 }, { careTier: 2 }, { careTier: 3 }].map((keeper, index) => {
  const { keeper: _, ...rest } = situationOf({ residents: residentsOf(species(1), { length: cm(8) }) });
  return { name: `keeper ${index}`, library: sample, situation: keeper === undefined ? rest : { ...rest, keeper } };
});

const companies: Case[] = [
  residentsOf(species(1), { count: 2 }),
  residentsOf(species(2), { count: 2, sex: 'male' }),
  residentsOf(species(2, 1), { count: 20 }),
].map((residents, index) => ({ name: `company ${index}`, library: sample, situation: situationOf({ residents }) }));

const HAZARDS = ['venom', 'toxin', 'bite', 'sting', 'cut'] as const;
const SEVERITIES = ['painful', 'dangerous'] as const;

/** Every kind of hazard at every severity, which the sample does not have. */
const hazards: Case = {
  name: 'hazards',
  library: libraryOf(
    records.map((record, index) => ({
      ...record,
      hazards: [
        { kind: HAZARDS[index % 5] ?? 'cut', severity: SEVERITIES[Math.floor(index / 5) % 2] ?? 'painful', basis: 'recalled' as const },
      ],
    })),
  ),
  situation: situationOf({ residents: residentsOf(species(1)) }),
};

/** Harems may hold one male; two of them are a case of their own. */
const harems: Case = {
  name: 'harems',
  library: sample,
  situation: situationOf({
    residents: records
      .filter((record) => record.conduct?.company?.kind === 'harem')
      .map(({ id }, index) => ({ id: `h${index}`, species: id, count: 2, sex: 'male', length: cm(6) })),
  }),
};

const rocks: Case[] = [2, 8, 30, 60, 120].map((mass) => ({
  name: `${mass} kg of rock`,
  library: sample,
  situation: situationOf({ tank: { ...smallTank, rock: kg(mass) }, residents: residentsOf(species(7)) }),
}));

const lone: Case[] = species(3).map((record) => ({
  name: `only ${record.id}`,
  library: sample,
  situation: situationOf({
    tank: { ...smallTank, rock: kg(record.conduct?.rockClaim?.value ?? 8) },
    residents: [{ id: 'solo', species: record.id, length: cm(5) }],
  }),
}));

const orders: Case[] = [
  { name: 'one by one', situation: situationOf({ introductions: oneByOne(species(4)) }) },
  { name: 'one by one, backwards', situation: situationOf({ introductions: oneByOne(species(4).reverse()) }) },
  { name: 'after residents', situation: situationOf({ residents: residentsOf(species(9)), introductions: oneByOne(species(9, 4)) }) },
  { name: 'no horizon', situation: situationOf({ residents: residentsOf(species(2)), settings: { horizonDays: 0 } }) },
  { name: 'short horizon', situation: situationOf({ introductions: oneByOne(species(3, 1)), settings: { horizonDays: 400 } }) },
].map((one) => ({ ...one, library: sample }));

/** Each case is checked. */
export const cases: readonly Case[] = [
  ...contestCases,
  ...providedFor,
  ...tankCases,
  {
    name: 'harms not on record, corals kept',
    library: without('conduct.harms'),
    situation: situationOf({ tank: { ...smallTank, kept: ['stony-corals', 'clams'] }, residents: residentsOf(species(2)) }),
  },
  {
    name: 'soft corals kept',
    library: sample,
    situation: situationOf({ tank: { ...smallTank, kept: ['soft-corals'] }, residents: residentsOf(species(9)) }),
  },
  { name: 'all at once', library: sample, situation: situationOf({ residents: residentsOf(species(1)) }) },
  { name: 'all at once, no stand-ins', library: bare, situation: situationOf({ residents: residentsOf(species(3)) }) },
  {
    name: 'acidity wanted',
    library: acid,
    situation: situationOf({ tank: { ...smallTank, acidity: { value: 7.4, unit: '[pH]' } }, residents: residentsOf(species(9)) }),
  },
  {
    name: 'acidity wanted, not told',
    library: acid,
    situation: situationOf({ tank: tankWithout('acidity'), residents: residentsOf(species(9)) }),
  },
  ...lacking,
  strangeKin,
  hazards,
  ...tanks,
  ...waters,
  ...keepers,
  ...companies,
  harems,
  ...rocks,
  ...lone,
  ...orders,
];

const wishesOf = (list: readonly SpeciesRecord[]): NonNullable<Situation['wishes']> => list.map(({ id }) => ({ species: id }));

const roomy: Situation['tank'] = { ...smallTank, water: { value: 400, unit: 'L' }, length: cm(150), width: cm(60), rock: kg(40) };

/** Each of these is planned. */
export const planCases: readonly Case[] = [
  { name: 'novice', situation: situationOf({ tank: roomy, wishes: wishesOf(species(7)) }) },
  { name: 'cycled later', situation: situationOf({ tank: { ...roomy, cycledOn: '2027-04-01' }, wishes: wishesOf(species(8, 1)) }) },
  {
    name: 'with residents',
    situation: situationOf({
      tank: { ...roomy, rock: kg(15) },
      keeper: { careTier: 2 },
      residents: residentsOf([
        recordOf(sample, 'pterois-volitans') as SpeciesRecord,
        recordOf(sample, 'dascyllus-trimaculatus') as SpeciesRecord,
      ]),
      wishes: wishesOf(species(6, 2)),
    }),
  },
  {
    name: 'one in place of another',
    situation: situationOf({ tank: roomy, keeper: { careTier: 3 }, wishes: wishesOf(species(5, 3)) }),
  },
  {
    name: 'small and warm',
    situation: situationOf({
      tank: { ...roomy, length: cm(60), water: { value: 60, unit: 'L' } },
      wishes: wishesOf(records.filter(({ id }) => ['zebrasoma-flavescens', 'lythrypnus-dalli'].includes(id))),
    }),
  },
  {
    name: 'little rock',
    situation: situationOf({ tank: { ...roomy, rock: kg(4) }, keeper: { careTier: 3 }, wishes: wishesOf(species(9, 6)) }),
  },
].map((one) => ({ ...one, library: sample }));
