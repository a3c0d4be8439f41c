import { childPointer, listWords, placeName, type SpeciesRecord } from '@commensal/schema';
import { figureOf } from '../figures.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** `tier-without-provisions`: a tier of 2 or 3 that does not say what is hard about it helps nobody. */
export const tierWithoutProvisions: RecordCheck = (record) => {
  const { careTier, provisions } = record.needs ?? {};
  if (careTier === undefined || careTier.value < 2 || provisions !== undefined) return [];
  return [
    {
      problem: {
        code: 'tier-without-provisions',
        pointer: '/needs/careTier',
        found: `needs.careTier is ${careTier.value}, and needs has no "provisions"`,
        allowed: 'a tier of 2 or 3 goes with what must be provided',
        fix: 'Add "provisions" with what makes the difference, or give tier 1.',
      },
      reads: ['/needs/provisions'],
    },
  ];
};

/** `captive-bred-harder`: tank-raised animals are easier to keep, if there is a difference. */
export const captiveBredHarder: RecordCheck = (record) => {
  const wild = record.needs?.careTier?.value;
  const bred = record.needs?.ifCaptiveBred?.careTier?.value;
  if (wild === undefined || bred === undefined || bred <= wild) return [];
  return [
    {
      problem: {
        code: 'captive-bred-harder',
        pointer: '/needs/ifCaptiveBred/careTier',
        found: `needs.ifCaptiveBred.careTier is ${bred}, needs.careTier is ${wild}`,
        allowed: 'tank-raised animals are not harder to keep than wild ones',
        fix: 'Look whether the two have changed places.',
      },
      reads: ['/needs/careTier'],
    },
  ];
};

type Provision = NonNullable<NonNullable<SpeciesRecord['needs']>['provisions']>['list'][number];

const eatsNo =
  (food: string) =>
  (record: SpeciesRecord): string | undefined => {
    const foods: readonly string[] | undefined = record.feeding?.eats?.foods;
    return foods === undefined || foods.includes(food) ? undefined : `feeding.eats.foods has no "${food}"`;
  };

const hasNoPartner =
  (kind: string) =>
  (record: SpeciesRecord): string | undefined =>
    record.needs?.partners?.some((partner) => partner.kind === kind) === true ? undefined : `needs.partners has none of the kind "${kind}"`;

const hasNoSand = ({ needs }: SpeciesRecord): string | undefined =>
  needs?.sandDepth !== undefined || needs?.sandGrain !== undefined || needs?.shelter?.some(({ kind }) => kind === 'sand-bed') === true
    ? undefined
    : 'needs says nothing of sand';

const isLit =
  (light: 'dim' | 'strong') =>
  ({ needs }: SpeciesRecord): string | undefined =>
    needs?.light?.value === light ? `needs.light is "${light}"` : undefined;

/** Cooler than this is what a tank in a heated room does not keep by itself (our choice). */
const COOL_BELOW_CEL = 24;

/** What in a record speaks against a provision that it asks for. */
const SPEAKS_AGAINST: Readonly<Partial<Record<Provision, (record: SpeciesRecord) => string | undefined>>> = {
  'live-copepods': eatsNo('copepods'),
  'algae-to-graze': eatsNo('algae'),
  'sponge-food': eatsNo('sponges'),
  'coral-food': eatsNo('corals'),
  'host-anemone': hasNoPartner('host'),
  'shrimp-partner': hasNoPartner('burrow-mate'),
  'sand-to-sleep-in': hasNoSand,
  'sand-to-sift': hasNoSand,
  'dim-light': isLit('strong'),
  'strong-light': isLit('dim'),
  'gentle-flow': ({ needs }) => (needs?.flow?.value === 'strong' ? 'needs.flow is "strong"' : undefined),
  'tight-lid': ({ conduct }) => (conduct?.escapes?.value === 'stays' ? 'conduct.escapes is "stays"' : undefined),
  'empty-shells': ({ form }) => (form === 'hermit-crab' ? undefined : `the form is "${form}"`),
  'cooled-water': ({ needs }) => {
    const low = figureOf(needs?.temperature, 'Cel')?.low;
    return low === undefined || low < COOL_BELOW_CEL ? undefined : `needs.temperature begins at ${low} Cel`;
  },
};

/** `provision-at-odds`: what must be provided and what the record says elsewhere do not go together. */
export const provisionAtOdds: RecordCheck = (record) =>
  (record.needs?.provisions?.list ?? []).flatMap((provision, index): Suspicion[] => {
    const against = SPEAKS_AGAINST[provision]?.(record);
    if (against === undefined) return [];
    const pointer = childPointer('/needs/provisions/list', index);
    return [
      {
        problem: {
          code: 'provision-at-odds',
          pointer,
          found: `${placeName(pointer)} is "${provision}", but ${against}`,
          allowed: 'the two must say the same',
          fix: 'Take the provision out, or correct what speaks against it.',
        },
        reads: ['/feeding/eats/foods'],
        doubts: [pointer],
      },
    ];
  });

type CompanyKind = NonNullable<NonNullable<SpeciesRecord['conduct']>['company']>['kind'];

/** Fewest and most of its kind that each sort of company can mean: what the words say. */
const NUMBERS: Readonly<Partial<Record<CompanyKind, { readonly least: number; readonly most: number; readonly atLeast: number }>>> = {
  solitary: { least: 1, most: 1, atLeast: 1 },
  pair: { least: 2, most: 2, atLeast: 2 },
  harem: { least: Number.POSITIVE_INFINITY, most: Number.POSITIVE_INFINITY, atLeast: 3 },
  group: { least: Number.POSITIVE_INFINITY, most: Number.POSITIVE_INFINITY, atLeast: 3 },
};

/** Pugnacity to its own kind with which no group works: it bites, or worse. */
const BITES = 3;

/** `company-at-odds`: the company it wants, the numbers, and what it does to its own kind. */
export const companyAtOdds: RecordCheck = (record) => {
  const company = record.conduct?.company;
  const pugnacity = record.conduct?.pugnacity;
  const numbers = company === undefined ? undefined : NUMBERS[company.kind];
  if (company === undefined || numbers === undefined) return [];
  const against = [
    company.least !== undefined && company.least > numbers.least ? `"least" is ${company.least}` : undefined,
    company.most !== undefined && (company.most > numbers.most || company.most < numbers.atLeast) ? `"most" is ${company.most}` : undefined,
    company.kind === 'group' && pugnacity !== undefined && pugnacity.ownKind >= BITES
      ? `conduct.pugnacity.ownKind is ${pugnacity.ownKind}`
      : undefined,
  ].filter((reason) => reason !== undefined);
  if (against.length === 0) return [];
  return [
    {
      problem: {
        code: 'company-at-odds',
        pointer: '/conduct/company',
        found: `conduct.company.kind is "${company.kind}", but ${listWords(against, 'and')}`,
        allowed: {
          solitary: 'a solitary animal is kept alone',
          pair: 'a pair is two',
          harem: 'a harem is three or more',
          group: 'a group is three or more that do not bite each other',
          any: '',
        }[company.kind],
        fix: 'Correct the one that is wrong.',
      },
      reads: ['/conduct/pugnacity'],
    },
  ];
};
