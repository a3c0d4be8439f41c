import type { Stock, StockAnimal, StockKind } from '../stock/stock.js';
import { meetingOf } from './meeting.js';
import { bySex } from './relation.js';

/**
 * How two lines stand that may keep each other company. `bonded`: a pair, a harem or a group that works in a tank, which counts as one.
 * `unfit`: more of their kind than can be together, or of the wrong sexes, which is the matter of `company`. `strangers`: anything else.
 */
export type Companionship = 'bonded' | 'unfit' | 'strangers';

/** A line beside itself stands for the animals within it. */
export function companionship(stock: Stock, one: StockAnimal, other: StockAnimal): Companionship {
  if (one.kind.id !== other.kind.id) return 'strangers';
  const company = one.kind.record.conduct?.company;
  if (company === undefined) return 'strangers';
  if (company.kind === 'solitary') return 'unfit';
  // Chases between animals of known sexes go before what the record says of all together: `company` does not speak of them.
  const [, step = 0] = bySex(one, other) ?? [];
  if (step === CHASES) return 'strangers';
  const alike = stock.animals.filter(
    (animal) => animal.kind.id === one.kind.id && sharesDays(stock, animal, one) && sharesDays(stock, animal, other),
  );
  const most = company.most ?? (company.kind === 'pair' ? 2 : Number.POSITIVE_INFINITY);
  if (numberOf(alike) > most) return 'unfit';
  if (company.kind === 'harem' && numberOf(alike.filter((animal) => animal.sex === 'male')) > 1) return 'unfit';
  return step >= BITES || (company.kind === 'pair' && isNoPair(one, other)) ? 'unfit' : 'bonded';
}

/** A bonded pair, a harem or a group holds one territory together. */
export const sharesClaim = ({ record }: StockKind): boolean => {
  const kind = record.conduct?.company?.kind;
  return kind === 'pair' || kind === 'harem' || kind === 'group';
};

/** Steps of pugnacity. */
const CHASES = 2;
const BITES = 3;

const sharesDays = (stock: Stock, one: StockAnimal, other: StockAnimal): boolean =>
  one === other || meetingOf(stock, one, other) !== undefined;

const numberOf = (animals: readonly StockAnimal[]): number => animals.reduce((sum, animal) => sum + animal.count, 0);

/** Two of one sex are no pair, unless one of them can change. */
const isNoPair = (one: StockAnimal, other: StockAnimal): boolean => one.sex !== undefined && one.sex === other.sex && !canChange(one);

function canChange({ kind, sex }: StockAnimal): boolean {
  const way = kind.record.lifeCycle?.sexChange?.value;
  if (way === 'both-ways' || way === 'both-at-once') return true;
  return way === (sex === 'male' ? 'male-to-female' : 'female-to-male');
}
