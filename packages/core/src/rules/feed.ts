import { usualBuild } from '../biology/usual-weight.js';
import { weight } from '../biology/weight.js';
import { type Band, bandOf, DEFAULT_SPREAD, exactly } from '../quantity/band.js';
import { weakest } from '../quantity/basis.js';
import { logDown, logUp, together } from '../quantity/log-errors.js';
import type { StockAnimal } from '../stock/stock.js';
import { lengthOn as expectedLengthOn } from './gape/index.js';
import type { LengthBook } from './gape/lengths.js';
import type { RuleDefault } from './rule.js';

/** Share of its weight that an animal is fed, where its record does not tell. */
export const feedShareDefault: RuleDefault = {
  value: 0.04,
  unit: '1',
  basis: 'practice',
  note: 'Frozen food a day over the weight of a fish, where its record does not tell; half or twice as much is usual too.',
};

/** How far the usual ration of one keeper lies from another's (our choice). */
const RATION_SPREAD = 2;

/** Whether it is fed: fishes are; what creeps and sits lives on leavings unless its record gives both a weight and a ration. */
export const isFed = ({ kind }: StockAnimal): boolean =>
  kind.form === 'fish' || (kind.record.size?.weight !== undefined && kind.record.feeding?.dailyFeed !== undefined);

/** Whether it is in the tank on a day. */
export const isIn = (animal: StockAnimal, day: number): boolean =>
  (animal.entryDay ?? Number.NEGATIVE_INFINITY) <= day && animal.leaveDay > day;

/** Whether the error of a length counts: what a tank is used to hangs on what is fed in it, however long its animals are. */
export type LengthError = 'counts' | 'is-left-out';

/**
 * What the animals of one line are fed a day, in grams of frozen food, from their weight on that day. Undefined where neither
 * their length nor their adult length is known; 0 for what is not fed.
 */
export function feedOn(
  animal: StockAnimal,
  day: number,
  feedShare: number,
  lengths: LengthBook,
  lengthError: LengthError = 'counts',
): Band | undefined {
  if (!isFed(animal)) return exactly(0);
  const { kind } = animal;
  const length = lengthOn(animal, day, lengths);
  if (length === undefined) return undefined;
  const own = kind.record.size?.weight;
  const usual = usualBuild(kind.depthPerTotal?.centre);
  const { b } = own ?? usual;
  const weightError = own === undefined ? usual.logError : Math.log(DEFAULT_SPREAD[own.basis]);
  const [down, up] = lengthError === 'counts' ? [logDown(length), logUp(length)] : [0, 0];
  const share = shareOf(animal, feedShare);
  const centre = gramsOf(animal, length.centre, share.centre);
  return {
    low: centre / Math.exp(together(logDown(share), weightError, b * down)),
    centre,
    high: centre * Math.exp(together(logUp(share), weightError, b * up)),
    basis: weakest(share.basis, own?.basis ?? 'imputed', length.basis),
  };
}

/** The same at the centre, where nobody asks for the error. */
export function feedCentreOn(animal: StockAnimal, day: number, feedShare: number): number | undefined {
  if (!isFed(animal)) return 0;
  const { lengthCm, kind } = animal;
  if (lengthCm === undefined && kind.adultCm === undefined) return undefined;
  const length = lengthCm === undefined ? (kind.adultCm as Band).centre : expectedLengthOn(animal, day);
  return gramsOf(animal, length, shareOf(animal, feedShare).centre);
}

/** Share of its weight that an animal is fed a day. */
export function shareOf({ kind }: StockAnimal, feedShare: number): Band {
  const told = kind.record.feeding?.dailyFeed;
  return told === undefined
    ? { low: feedShare / RATION_SPREAD, centre: feedShare, high: feedShare * RATION_SPREAD, basis: 'practice' }
    : bandOf(told, '1');
}

/** Lengths are total lengths; a weight fitted to standard lengths is asked for the standard length. */
function gramsOf({ kind, count }: StockAnimal, lengthCm: number, share: number): number {
  const own = kind.record.size?.weight;
  const fitted = own?.lengthType === 'SL' ? (kind.totalPerStandard?.centre ?? 1) : 1;
  const { a, b } = own ?? usualBuild(kind.depthPerTotal?.centre);
  return count * share * weight(lengthCm / fitted, a, b);
}

/** Where the length is not told, that of an adult: a gap must not make a load smaller. */
function lengthOn(animal: StockAnimal, day: number, lengths: LengthBook): Band | undefined {
  const { lengthCm, kind } = animal;
  if (lengthCm === undefined) return kind.adultCm;
  const { log, up, down } = lengths(animal, day);
  if (Number.isNaN(log)) return lengthCm;
  const centre = Math.exp(log);
  return { low: centre / Math.exp(down), centre, high: centre * Math.exp(up), basis: lengthCm.basis };
}

/** The band of a sum of bands that err the same way. Summed by size, so that the order of animals does not show in the last digit. */
export function sumOf(bands: readonly Band[]): Band {
  let [low, centre, high] = [0, 0, 0];
  for (const band of [...bands].sort((one, other) => one.centre - other.centre || one.high - other.high)) {
    low += band.low;
    centre += band.centre;
    high += band.high;
  }
  return { low, centre, high, basis: weakest(...bands.map((band) => band.basis)) };
}
