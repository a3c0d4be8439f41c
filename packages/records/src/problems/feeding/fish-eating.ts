import type { SpeciesRecord } from '@commensal/schema';
import type { RecordCheck, Suspicion } from '../suspicion.js';

const POINTER = '/feeding/fishEating';

/** `fish-eating-diet`: fishes are its food, or they are not. */
export const fishEatingDiet: RecordCheck = (record) => {
  const { eats, fishEating } = record.feeding ?? {};
  if (eats === undefined || fishEating === undefined) return [];
  const hasFishes = eats.foods.includes('fishes');
  const isAtOdds = fishEating.value === 'habitual' ? !hasFishes : fishEating.value === 'noneRecorded' && hasFishes;
  if (!isAtOdds) return [];
  return [
    {
      problem: {
        code: 'fish-eating-diet',
        pointer: POINTER,
        found: `feeding.fishEating is "${fishEating.value}", and feeding.eats.foods ${hasFishes ? 'has' : 'lacks'} "fishes"`,
        allowed: 'the two must say the same',
        fix: hasFishes
          ? 'Write "opportunist" or "habitual", or take "fishes" out of the foods.'
          : 'Add "fishes" to the foods, or write "opportunist" or "noneRecorded".',
      },
      reads: ['/feeding/eats/foods'],
    },
  ];
};

type Mode = NonNullable<NonNullable<SpeciesRecord['feeding']>['mode']>['value'];

/** Ways of feeding that do not live on fishes. */
const NOT_ON_FISHES: readonly Mode[] = ['plankton-picker', 'grazer', 'browser', 'sand-sifter', 'filter-feeder'];

/** `fish-eating-mode`: who lives on fishes hunts them, lies in wait for them, or stings them. */
export const fishEatingMode: RecordCheck = (record) => {
  const { mode, fishEating } = record.feeding ?? {};
  if (fishEating?.value !== 'habitual' || mode === undefined || !NOT_ON_FISHES.includes(mode.value)) return [];
  return [
    {
      problem: {
        code: 'fish-eating-mode',
        pointer: POINTER,
        found: `feeding.fishEating is "habitual", and feeding.mode is "${mode.value}"`,
        allowed: 'whoever lives on fishes is an ambusher, a hunter, a picker, a crusher, a scavenger or a stinger',
        fix: 'Write "opportunist" where it takes one when it can, or give the mode that fits. Predicted guilds do not count.',
      },
      reads: ['/feeding/mode'],
    },
  ];
};

const FISHES = ['fishes', 'small-fishes', 'slow-fishes'];

/** `fish-eating-gape`: what eats fishes either swallows them or harms them otherwise, and a mouth that stretches is there for a reason. */
export const fishEatingGape: RecordCheck = (record) => {
  const fishEating = record.feeding?.fishEating?.value;
  const gapeClass = record.shape?.gapeClass?.value;
  const harmsFishes = record.conduct?.harms?.some(({ what }) => what.some((target) => FISHES.includes(target))) === true;
  const tearsNone = fishEating === 'habitual' && gapeClass === 'notGapeLimited' && !harmsFishes;
  const stretchesForNone = fishEating === 'noneRecorded' && gapeClass === 'distensible';
  if (!tearsNone && !stretchesForNone) return [];
  const told: Suspicion = {
    problem: {
      code: 'fish-eating-gape',
      pointer: POINTER,
      found: tearsNone
        ? 'feeding.fishEating is "habitual", but shape.gapeClass is "notGapeLimited" and conduct.harms names no fishes'
        : 'feeding.fishEating is "noneRecorded", but shape.gapeClass is "distensible"',
      allowed: tearsNone
        ? 'who eats fishes without swallowing them whole harms them in another way'
        : 'mouths that stretch belong to animals that swallow fishes',
      fix: tearsNone
        ? 'Give the gapeClass "engulfs" or "distensible", or say in conduct.harms what it does to fishes.'
        : 'Correct the one that is wrong.',
    },
    reads: ['/shape/gapeClass'],
  };
  return [told];
};

/** Ways of feeding that need no mouth to take in prey whole. */
const TAKES_NOTHING_WHOLE: readonly Mode[] = ['stinger', 'grazer', 'browser'];

/** `gape-against-mode`: a grazer has no mouth that stretches, and an anemone is limited by none. */
export const gapeAgainstMode: RecordCheck = (record) => {
  const mode = record.feeding?.mode?.value;
  const gapeClass = record.shape?.gapeClass?.value;
  if (mode === undefined || gapeClass === undefined || !TAKES_NOTHING_WHOLE.includes(mode)) return [];
  if (gapeClass === 'notGapeLimited' || (mode !== 'stinger' && gapeClass === 'engulfs')) return [];
  return [
    {
      problem: {
        code: 'gape-against-mode',
        pointer: '/shape/gapeClass',
        found: `shape.gapeClass is "${gapeClass}", and feeding.mode is "${mode}"`,
        allowed: mode === 'stinger' ? 'what stings is not limited by a gape' : 'what grazes or browses has no mouth that stretches',
        fix: 'Write "notGapeLimited", or give the mode that fits.',
      },
      reads: ['/feeding/mode'],
    },
  ];
};
