import { childPointer, type Diet, didYouMean, listWords, placeName, type SpeciesRecord } from '@commensal/schema';
import type { RecordCheck, Suspicion } from '../suspicion.js';

type Food = Diet['foods'][number];
type Mode = NonNullable<NonNullable<SpeciesRecord['feeding']>['mode']>['value'];

/** Foods of which an animal that feeds in this way takes at least one: what the words of the schema mean, no more. */
const FOODS_OF: Readonly<Record<Mode, readonly Food[]>> = {
  ambusher: ['fishes', 'shrimps', 'crabs', 'worms', 'snails', 'bivalves'],
  hunter: ['fishes', 'shrimps', 'crabs', 'worms', 'snails', 'bivalves'],
  picker: [
    'copepods',
    'worms',
    'zooplankton',
    'shrimps',
    'crabs',
    'snails',
    'bivalves',
    'urchins',
    'corals',
    'anemones',
    'sponges',
    'tunicates',
    'parasites',
    'scales-and-mucus',
    'fishes',
  ],
  'plankton-picker': ['zooplankton', 'copepods'],
  grazer: ['algae', 'detritus'],
  browser: ['algae', 'sponges', 'tunicates', 'corals', 'anemones', 'worms'],
  'sand-sifter': ['worms', 'copepods', 'detritus', 'snails', 'bivalves', 'shrimps', 'crabs'],
  crusher: ['crabs', 'snails', 'bivalves', 'urchins', 'shrimps', 'corals'],
  scavenger: ['detritus', 'algae'],
  'filter-feeder': ['zooplankton', 'copepods', 'detritus', 'algae'],
  stinger: ['zooplankton', 'shrimps', 'fishes', 'crabs', 'copepods'],
};

const withArticle = (word: string): string => `${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word}`;

/** `diet-against-mode`: how it feeds and what it eats do not go together. */
export const dietAgainstMode: RecordCheck = (record) => {
  const { mode, eats } = record.feeding ?? {};
  if (mode === undefined || eats === undefined) return [];
  const wanted = FOODS_OF[mode.value];
  if (eats.foods.some((food) => wanted.includes(food))) return [];
  return [
    {
      problem: {
        code: 'diet-against-mode',
        pointer: '/feeding/eats/foods',
        found: `feeding.mode is "${mode.value}", and feeding.eats.foods has ${listWords(eats.foods, 'and')}`,
        allowed: `${withArticle(mode.value)} eats at least one of ${listWords(wanted)}`,
        fix: 'Add what it lives on, or give the mode that fits.',
      },
      reads: ['/feeding/mode'],
    },
  ];
};

/** `food-not-listed`: a food is spoken of that the diet does not have. */
export const foodNotListed: RecordCheck = (record) => {
  const { eats, specialist } = record.feeding ?? {};
  if (eats === undefined) return [];
  const foods: readonly string[] = eats.foods;
  const named: readonly (readonly [pointer: string, food: string])[] = [
    ...(eats.small ?? []).map((food, index) => [childPointer('/feeding/eats/small', index), food] as const),
    ...(specialist === undefined ? [] : [['/feeding/specialist/food', specialist.food] as const]),
  ];
  return named
    .filter(([, food]) => !foods.includes(food))
    .map(
      ([pointer, food]): Suspicion => ({
        problem: {
          code: 'food-not-listed',
          pointer,
          found: `${placeName(pointer)} is "${food}", which feeding.eats.foods does not have`,
          allowed: 'it must be one of the foods of the record',
          fix: didYouMean(food, foods, `Add "${food}" to feeding.eats.foods, or take it out here.`),
        },
        reads: ['/feeding/eats/foods'],
        doubts: [pointer],
      }),
    );
};

/** What is eaten of animals that are kept for themselves, and whom it harms. Shrimps, snails and crabs may be swallowed whole: the gape tells. */
const HARMED_BY_EATING: readonly (readonly [food: Food, targets: readonly string[]])[] = [
  ['corals', ['stony-corals', 'soft-corals']],
  ['anemones', ['anemones']],
  ['sponges', ['sponges']],
];

/** `diet-without-harm`: who eats corals harms corals; rivals are told from pugnacity, victims from `harms` alone. */
export const dietWithoutHarm: RecordCheck = (record) => {
  const harms = record.conduct?.harms;
  const eats = record.feeding?.eats;
  if (harms === undefined || eats === undefined) return [];
  return HARMED_BY_EATING.flatMap(([food, targets]): Suspicion[] => {
    if (!eats.foods.includes(food) || harms.some(({ what }) => what.some((target) => targets.includes(target)))) return [];
    return [
      {
        problem: {
          code: 'diet-without-harm',
          pointer: '/conduct/harms',
          found: `feeding.eats.foods has "${food}", and conduct.harms names nothing of the kind`,
          allowed: `what it eats of animals that are kept stands in conduct.harms, here ${listWords(targets)}`,
          fix: 'Add the harm, with how badly and how often; where it never touches those in tanks, say so in an exception.',
        },
        reads: ['/feeding/eats/foods'],
      },
    ];
  });
};
