/** Situations that make the rules on ammonia, quarantine, batches, light, flow, copper and sexes speak in every way they can. */
import { type Library, libraryOf } from '@commensal/core';
import type { Introduction, Newcomer, Situation, SpeciesRecord } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import type { Case } from './situations.js';

const $schema = 'https://commensal.example/schema/1.0/situation.schema.json';

const TANK: Situation['tank'] = {
  water: { value: 120, unit: 'L' },
  temperature: { low: 25, high: 28, unit: 'Cel' },
  salinity: { value: 34, unit: '1' },
  acidity: { value: 8.2, unit: '[pH]' },
  cycledOn: '2027-01-01',
};

const filter = (value: number): Situation['tank'] => ({ ...TANK, filter: { area: { value, unit: 'm2' } } });

const sample: Library = libraryOf(records, standIns, 'sample');

/** The sample, every record changed alike. */
const changed = (change: (record: SpeciesRecord) => SpeciesRecord): Library => libraryOf(records.map(change), standIns);

const go = (date: string, ...animals: Newcomer[]): Introduction => ({ date, animals });
const tang = (count: number, more: Partial<Newcomer> = {}): Newcomer => ({ species: 'zebrasoma-flavescens', count, ...more });
const clowns: Newcomer = { species: 'amphiprion-ocellaris', count: 2 };
const one: Situation['residents'] = [{ id: 'first', species: 'gramma-loreto', length: { value: 6, unit: 'cm' }, enteredOn: '2027-01-20' }];
const of = (residents: Situation['residents'], ...introductions: Introduction[]): Partial<Situation> => ({
  ...(residents && { residents }),
  introductions,
});

type Row = readonly [name: string, tank: Situation['tank'], more: Partial<Situation>, library?: Library];

/** Two basslets of a sex, of which males fight males and females females in a group. */
function twoOf(kind: 'group' | 'pair', sex: 'male' | 'female' | undefined, change: 'none' | undefined): Row {
  const library = changed((record) => ({
    ...record,
    conduct: {
      company: { kind, least: 1, basis: 'practice' },
      pugnacity: {
        ownKind: 1,
        genus: 1,
        kin: 1,
        others: 1,
        newcomers: 1,
        basis: 'practice',
        ...(kind === 'group' && { maleToMale: 3, femaleToFemale: 3 }),
      },
    },
    ...(change && { lifeCycle: { sexChange: { value: change, basis: 'practice' } } }),
  }));
  return [
    `${kind} of ${sex}, changing ${change}`,
    TANK,
    { residents: [{ id: 'two', species: 'gramma-loreto', count: 2, ...(sex && { sex }) }] },
    library,
  ];
}

const situations: readonly Row[] = [
  ['no filter, nothing planned', TANK, { residents: one }],
  ['no filter', TANK, of(one, go('2027-04-01', clowns))],
  ['small filter', filter(0.02), of(one, go('2027-04-01', clowns))],
  ['doubtful filter', filter(1), of(one, go('2027-04-01', tang(2)))],
  ['doubtful filter, food told', { ...filter(0.15), feed: { mass: { value: 1, unit: 'g' } } }, of(one)],
  ['unknown size', filter(1), of([{ id: 'who', species: 'gramma-loreto' }]), changed(({ size: _, growth: __, ...record }) => record)],
  ['doubtful peak', filter(9), of(one, go('2027-04-01', tang(2)))],
  ...[0.2, 0.5, 1, 3].map(
    (value): Row => [
      `doubtful peak, ${value} g of food told`,
      { ...filter(9), feed: { mass: { value, unit: 'g' } } },
      of(one, go('2027-04-01', tang(4))),
    ],
  ),
  [
    'doubtful peak, protein told',
    { ...filter(9), feed: { mass: { value: 1, unit: 'g' }, protein: { value: 0.1, unit: '1' } } },
    of(one, go('2027-04-01', tang(7))),
  ],
  ['peak', filter(90), of(one, go('2027-04-01', tang(8)))],
  ['high peak', filter(90), of(one, go('2027-04-01', tang(80)))],
  ['two peaks', filter(90), of(one, go('2027-04-01', tang(4)), go('2027-04-02', clowns, { species: 'paracanthurus-hepatus', count: 8 }))],
  [
    'low peak',
    filter(90),
    { ...of(one, go('2027-04-01', tang(8))), settings: { thresholds: { nitrogen: { warningMgPerL: 8, errorMgPerL: 9 } } } },
  ],
  [
    'doubtful high peak',
    filter(90),
    { ...of(one, go('2027-04-01', tang(8))), settings: { thresholds: { nitrogen: { warningMgPerL: 0.2, errorMgPerL: 0.3 } } } },
  ],
  ['water not told', { water: { value: 120, unit: 'L' } }, of(one, go('2027-04-01', tang(9)))],
  ['not cycled', { water: { value: 120, unit: 'L' } }, of([], go('2027-04-01', clowns))],
  ['no time to watch', TANK, of([], go('2027-03-10', clowns, { ...tang(1), purchasedOn: '2027-03-02' }))],
  ['bought late', TANK, of([], go('2027-04-01', { ...clowns, purchasedOn: '2027-03-20' }))],
  [
    'lots',
    { ...TANK, holdingTank: { lots: 1 } },
    of(
      [],
      go('2027-05-01', { ...clowns, purchasedOn: '2027-03-20' }),
      go('2027-06-01', tang(1, { purchasedOn: '2027-04-20' })),
      go('2027-06-20', { species: 'gramma-loreto', purchasedOn: '2027-04-25' }),
    ),
  ],
  [
    'lots, no holding tank',
    TANK,
    of([], go('2027-05-01', { ...clowns, purchasedOn: '2027-03-20' }), go('2027-06-01', tang(1, { purchasedOn: '2027-04-20' }))),
  ],
  [
    'kin in a lot, of which nothing is on record',
    TANK,
    of([], go('2027-05-01', tang(1, { purchasedOn: '2027-03-20' }), { species: 'acanthurus-achilles', purchasedOn: '2027-03-20' })),
    changed(({ conduct: { pugnacity: _, ...conduct } = {}, ...record }) => ({ ...record, conduct })),
  ],
  [
    'kin in a lot',
    { ...TANK, holdingTank: { lots: 1 } },
    of([], go('2027-05-01', tang(2, { purchasedOn: '2027-03-20' }), { species: 'acanthurus-achilles', purchasedOn: '2027-03-20' })),
    changed((record) => ({
      ...record,
      conduct: { pugnacity: { ownKind: 3, genus: 3, kin: 3, others: 1, newcomers: 1, basis: 'recalled' } },
    })),
  ],
  ['disease', { ...TANK, disease: { lastSeen: '2027-02-20' } }, of([], go('2027-04-01', clowns))],
  [
    'disease, fallow',
    { ...TANK, disease: { lastSeen: '2027-02-20', fishlessFrom: '2027-02-25', fishlessUntil: '2027-03-31' } },
    of([], go('2027-04-01', clowns)),
  ],
  ['large batch', TANK, of(one, go('2027-04-01', tang(6)))],
  [
    'batch of unknown size',
    TANK,
    of([{ id: 'who', species: 'gramma-loreto', enteredOn: '2027-01-01' }], go('2027-04-01', clowns), go('2027-05-01', tang(1))),
    changed(({ size: _, growth: __, ...record }) =>
      record.id === 'gramma-loreto' ? record : { ...record, size: _ ?? {}, growth: __ ?? {} },
    ),
  ],
  ...(['present', 'removed', undefined] as const).map(
    (copper): Row => [
      `copper ${copper}`,
      { ...TANK, ...(copper && { copper }) },
      of([], go('2027-04-01', { species: 'lysmata-amboinensis' }, { species: 'clibanarius-tricolor' })),
    ],
  ),
  ...([{}, { light: 'dim', flow: 'strong' }] as const).map(
    (told, index): Row => [
      `light and flow ${index}`,
      { ...TANK, ...told },
      { residents: one },
      changed((record) => ({
        ...record,
        needs: { ...record.needs, light: { value: 'strong', basis: 'practice' }, flow: { value: 'gentle', basis: 'practice' } },
      })),
    ],
  ),
  ...(['male', 'female', undefined] as const).flatMap((sex) =>
    (['group', 'pair'] as const).flatMap((kind) => ([undefined, 'none'] as const).map((change) => twoOf(kind, sex, change))),
  ),
  ...[25, 16, 14, 12, 11, 10, 9].map(
    (value): Row => [
      `spines against ${value} cm`,
      TANK,
      of([{ id: 'hunter', species: 'pterois-volitans', length: { value, unit: 'cm' } }], go('2027-04-01', clowns)),
      changed((record) => ({
        ...record,
        shape: { ...record.shape, defendedDepth: { low: 0.4, value: 0.8, high: 1.2, unit: '1', basis: 'recalled' } },
      })),
    ],
  ),
];

/** Each is checked. */
export const tankCases: readonly Case[] = situations.map(([name, tank, more, library = sample]) => ({
  name,
  library,
  situation: { $schema, date: '2027-03-01', keeper: { careTier: 1 }, tank, ...more },
}));
