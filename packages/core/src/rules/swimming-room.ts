import type { Basis, Level } from '@commensal/schema';
import { type SwimmingNeed, swimmingNeed } from '../biology/swimming-need.js';
import { weakest } from '../quantity/basis.js';
import type { StockAnimal } from '../stock/stock.js';
import { isOver, isUnder } from './rounding.js';
import { INAPPLICABLE, PASSED, type Rule, type RuleDefault } from './rule.js';

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

/** Has an adult room to swim in this tank? */
export const swimmingRoom: Rule<
  SwimmingRoomMeasure,
  'perchers' | 'cruisers' | 'roamers' | 'width' | 'height' | 'perchersHeight' | 'errorShare'
> = {
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
      const swims = activity?.value !== 'crawls' && activity?.value !== 'fixed';
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
      const perches = activity.value === 'perches';
      const along = activity.value === 'roams' ? options.roamers : perches ? options.perchers : options.cruisers;
      const room = { length: along, width: options.width, height: perches ? options.perchersHeight : options.height };
      const need = swimmingNeed(adult.centre, room);
      const needAtMost = swimmingNeed(adult.high, room);
      const sharesFor = (
        { lengthCm: long, widthCm: wide, waterL: litres }: SwimmingNeed,
        side: 'centre' | 'low',
      ): [number, number, number] => [lengthCm[side] / long, widthCm[side] / wide, waterL[side] / litres];
      const shares = sharesFor(need, 'centre');
      const share = Math.min(...shares);
      each({
        animal,
        missing,
        swims,
        need,
        share,
        shareAtWorst: Math.min(...sharesFor(needAtMost, 'low')),
        tightest: !isOver(shares[0], share) ? 'length' : !isOver(shares[1], share) ? 'width' : 'water',
        adultInDoubt: Math.min(...sharesFor(needAtMost, 'centre')) <= Math.min(...sharesFor(need, 'low')),
        basis: weakest(adult.basis, activity.basis),
      });
    }
  },

  judge({ missing, swims, share, shareAtWorst }, { errorShare }) {
    if (missing.length > 0) return { outcome: 'cantTell', level: 'error', message: 'swimming-room.unknown' };
    if (!swims) return INAPPLICABLE;
    const level = (has: number): Level => (isUnder(has, errorShare) ? 'error' : 'warning');
    if (isUnder(share, 1)) return { outcome: 'failed', level: level(share), message: 'swimming-room.tooSmall' };
    if (isUnder(shareAtWorst, 1)) return { outcome: 'cantTell', level: level(shareAtWorst), message: 'swimming-room.mayBeTooSmall' };
    return PASSED;
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
