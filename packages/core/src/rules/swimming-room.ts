import type { Basis, Level } from '@commensal/schema';
import { type Activity, type RoomInLengths, type SwimmingNeed, swimmingNeed, swimmingShare } from '../biology/swimming-need.js';
import { weakest } from '../quantity/basis.js';
import type { StockAnimal, StockKind } from '../stock/stock.js';
import { isOver, isUnder } from './rounding.js';
import { INAPPLICABLE, PASSED, type Rule, type RuleDefault, type Verdict } from './rule.js';

/** One judgement: an animal and the tank. Shares are what the tank has over what an adult wants; the smallest of the three. */
export interface SwimmingRoomMeasure {
  readonly animal: StockAnimal;
  readonly missing: readonly string[];
  readonly swims: boolean;
  readonly need: SwimmingNeed | undefined;
  readonly share: number;
  /** The same for an adult at the upper end of its length. */
  readonly shareAtWorst: number;
  readonly tightest: 'length' | 'width' | 'water';
  /** Whether the adult length leaves more in doubt than the readings of the tank. */
  readonly adultInDoubt: boolean;
  readonly basis: Basis;
}

const lengths = (value: number, who: string): RuleDefault => ({
  value,
  unit: '1',
  basis: 'practice',
  note: `Adult lengths of tank length for ${who}.`,
});

/** Its thresholds. */
export type SwimmingRoomOptions = Readonly<Record<Options, number>>;

type Options = 'perchers' | 'cruisers' | 'roamers' | 'width' | 'height' | 'perchersHeight' | 'errorShare';

/** Has an adult room to swim in this tank? */
export const swimmingRoom: Rule<SwimmingRoomMeasure, Options> = {
  id: 'swimming-room',
  question: 'Has this animal, once adult, room to swim in this tank?',
  scope: 'animal',
  planning: 'option',
  monotone: { water: 'better', rock: 'neither', fewerAnimals: 'better', delay: 'neither' },
  needs: ['size.captiveAdult', 'growth.asymptoticLength', 'needs.activity', 'tank.length', 'tank.width', 'tank.water'],
  sources: [],
  defaults: {
    perchers: lengths(5, 'animals that perch'),
    cruisers: lengths(6, 'animals that swim within a part of the tank'),
    roamers: lengths(7, 'animals that roam the whole tank'),
    width: { value: 2, unit: '1', basis: 'practice', note: 'Adult lengths of tank width.' },
    height: { value: 2, unit: '1', basis: 'choice', note: 'Adult lengths of water height that go into the volume.' },
    perchersHeight: {
      value: 1,
      unit: '1',
      basis: 'choice',
      note: 'The same for animals that perch: they live on the bottom and on the rock.',
    },
    errorShare: { value: 0.6, unit: '1', basis: 'practice', note: 'Under this share of the need it is an error.' },
  },

  measure(stock, options, each) {
    const { lengthCm, widthCm, waterL } = stock.tank;
    for (const animal of stock.animals) {
      const activity = animal.kind.record.needs?.activity;
      const adult = animal.kind.adultCm;
      const swims = maySwim(animal.kind);
      const missing = [
        ...(activity === undefined ? ['needs.activity'] : []),
        ...(adult === undefined ? ['size.captiveAdult'] : []),
        ...(lengthCm === undefined ? ['tank.length'] : []),
        ...(widthCm === undefined ? ['tank.width'] : []),
      ];
      if (!swims || activity === undefined || adult === undefined || lengthCm === undefined || widthCm === undefined) {
        each({
          animal,
          missing: swims ? missing : [],
          swims,
          need: undefined,
          share: Number.NaN,
          shareAtWorst: Number.NaN,
          tightest: 'length',
          adultInDoubt: false,
          basis: 'recalled',
        });
        continue;
      }
      const room = roomIn(activity.value, options);
      const need = swimmingNeed(adult.centre, room);
      const shareFor = (adultCm: number, side: 'centre' | 'low'): number =>
        swimmingShare(lengthCm[side], widthCm[side], waterL[side], adultCm, room);
      const share = shareFor(adult.centre, 'centre');
      const hasOver = (has: number, wants: number): boolean => isOver(has / wants, share);
      each({
        animal,
        missing,
        swims,
        need,
        share,
        shareAtWorst: shareFor(adult.high, 'low'),
        tightest: !hasOver(lengthCm.centre, need.lengthCm) ? 'length' : !hasOver(widthCm.centre, need.widthCm) ? 'width' : 'water',
        adultInDoubt: shareFor(adult.high, 'centre') <= shareFor(adult.centre, 'low'),
        basis: weakest(adult.basis, activity.basis),
      });
    }
  },

  judge({ missing, swims, share, shareAtWorst }, { errorShare }) {
    if (missing.length > 0) return ROOM_UNKNOWN;
    return swims ? judgeRoom(share, shareAtWorst, errorShare) : INAPPLICABLE;
  },

  tell({ animal, missing, need, tightest, adultInDoubt, basis }, { outcome }, stock) {
    const { lengthCm, widthCm, waterL } = stock.tank;
    const subjects = [{ id: animal.id, role: 'animal' }];
    if (need === undefined || lengthCm === undefined || widthCm === undefined) {
      return { subjects, data: { missing: { keys: [...missing] } }, when: null, basis };
    }
    return {
      subjects,
      data: {
        adultLength: { value: Math.round((animal.kind.adultCm?.centre ?? Number.NaN) * 10) / 10, unit: 'cm' },
        adultLengthAtMost: { value: Math.round((animal.kind.adultCm?.high ?? Number.NaN) * 10) / 10, unit: 'cm' },
        needLength: { value: Math.round(need.lengthCm), unit: 'cm' },
        needWidth: { value: Math.round(need.widthCm), unit: 'cm' },
        needWater: { value: Math.round(need.waterL), unit: 'L' },
        tankLength: { value: lengthCm.centre, unit: 'cm' },
        tankWidth: { value: widthCm.centre, unit: 'cm' },
        tankWater: { value: waterL.centre, unit: 'L' },
        tightest: { keys: [tightest] },
        ...(outcome === 'cantTell' ? { settle: { keys: [adultInDoubt ? 'size.captiveAdult' : `tank.${tightest}`] } } : {}),
      },
      when: null,
      basis,
    };
  },
};

/** Crawling and fixed animals do not swim; where it is not on record, an animal may. */
export function maySwim({ record }: StockKind): boolean {
  const activity = record.needs?.activity?.value;
  return activity !== 'crawls' && activity !== 'fixed';
}

/** Its own lengths of room that a swimming animal wants. */
export function roomIn(activity: Activity, options: SwimmingRoomOptions): RoomInLengths {
  const perches = activity === 'perches';
  const along = activity === 'roams' ? options.roamers : perches ? options.perchers : options.cruisers;
  return { length: along, width: options.width, height: perches ? options.perchersHeight : options.height };
}

/** Where something is missing. */
export const ROOM_UNKNOWN: Verdict = { outcome: 'cantTell', level: 'error', message: 'swimming-room.unknown' };

/** By the share of its need that an adult has, and that one at the upper end of its length may have. */
export function judgeRoom(share: number, shareAtWorst: number, errorShare: number): Verdict {
  const level = (has: number): Level => (isUnder(has, errorShare) ? 'error' : 'warning');
  if (isUnder(share, 1)) return TOO_SMALL[level(share)];
  return isUnder(shareAtWorst, 1) ? MAY_BE_TOO_SMALL[level(shareAtWorst)] : PASSED;
}

const verdicts = (outcome: Verdict['outcome'], message: string): Readonly<Record<Level, Verdict>> => ({
  note: { outcome, level: 'note', message },
  warning: { outcome, level: 'warning', message },
  error: { outcome, level: 'error', message },
});
const TOO_SMALL = verdicts('failed', 'swimming-room.tooSmall');
const MAY_BE_TOO_SMALL = verdicts('cantTell', 'swimming-room.mayBeTooSmall');
