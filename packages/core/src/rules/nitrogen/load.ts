import { ammoniaFromFeed } from '../../biology/ammonia-from-feed.js';
import { type Band, exactly, scaled } from '../../quantity/band.js';
import { weakest } from '../../quantity/basis.js';
import { logDown, logUp, together } from '../../quantity/log-errors.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import { feedOn, isFed, isIn, type LengthError, sumOf } from '../feed.js';
import { lengthBook } from '../gape/lengths.js';
import type { NitrogenOptions } from './options.js';

/** Ammonia that the animals make, over time. */
export interface Loads {
  /** Total ammonia on a day, grams of nitrogen a day. */
  readonly on: (day: number) => Band;
  /**
   * The same without the errors of lengths: what a tank carries already it has grown used to. Of residents whose length is hardly known it would
   * else be said that they may be large, and so have left it many nitrifiers.
   */
  readonly settledOn: (day: number) => Band;
  /** The same of the residents alone as they are on the day of the situation. */
  readonly carried: Band;
  /** Days on which something goes in or comes out, from the day of the situation on, in order; that day first. */
  readonly days: readonly number[];
  /** Fed animals of which nothing tells how large they are, or how large they grow. */
  readonly unknown: readonly StockAnimal[];
  /** The food itself is told. */
  readonly isTold: boolean;
  readonly proteinIsTold: boolean;
}

/** Shares of nitrogen that end up as ammonia are off by about this factor from one food and fish to the next (our choice). */
const AMMONIA_SPREAD = 1.25;

/** Frozen foods of one sort differ by about this factor in protein (0.08 to 0.12, from memory). */
const PROTEIN_SPREAD = 1.25;

/**
 * What is fed makes the ammonia. Where it is told, it is what the residents get on the day of the situation; as they grow, and
 * for newcomers, a ration by weight comes on top, and it shrinks as residents leave. Where no fed animal is in yet, it is for
 * all that are planned, each its part by weight. Where it is not told, all is by weight.
 */
export function loadsOf(stock: Stock, options: NitrogenOptions): Loads {
  const { day: today, tank } = stock;
  const lengths = lengthBook();
  const fed = stock.animals.filter((animal) => isFed(animal) && animal.leaveDay > today);
  const isResident = ({ role }: StockAnimal): boolean => role === 'resident';
  const residents = fed.filter(isResident);
  const newcomers = fed.filter((animal) => !isResident(animal));
  const known = (animal: StockAnimal): boolean => feedOn(animal, today, options.feedShare, lengths) !== undefined;
  const rationOf = (animals: readonly StockAnimal[], day: number, lengthError?: LengthError): Band =>
    sumOf(animals.flatMap((animal) => (isIn(animal, day) ? (feedOn(animal, day, options.feedShare, lengths, lengthError) ?? []) : [])));
  const byWeight = (animals: readonly StockAnimal[], day: number, lengthError?: LengthError): Band =>
    ammonia(rationOf(animals, day, lengthError), options.frozenProtein, Math.log(PROTEIN_SPREAD), 'recalled');

  const changes = stock.animals.flatMap(({ entryDay, leaveDay }) => [entryDay ?? today, leaveDay]);
  const days = [...new Set([today, ...changes.filter((day) => day > today && Number.isFinite(day))])].sort((one, other) => one - other);
  const told = toldAmmonia(stock, options);
  const rationToday = rationOf(residents, today).centre;
  const lastEntry = newcomers.reduce((last, { entryDay }) => Math.max(last, entryDay ?? today), today);
  const rationInTheEnd = rationOf(newcomers, lastEntry).centre;

  const loadOn = (day: number, lengthError?: LengthError): Band => {
    if (told === undefined) return byWeight(fed, day, lengthError);
    const ofNewcomers = byWeight(newcomers, day, lengthError);
    if (rationToday > 0) {
      const nowOverThen = rationOf(residents, day).centre / rationToday;
      const growth = scaled(byWeight(residents, today, lengthError), Math.max(0, nowOverThen - 1));
      return sumOf([scaled(told, Math.min(1, nowOverThen)), growth, ofNewcomers]);
    }
    if (residents.length > 0) return sumOf([told, ofNewcomers]);
    return rationInTheEnd > 0 ? scaled(told, rationOf(newcomers, day).centre / rationInTheEnd) : told;
  };
  return {
    on: (day) => loadOn(day),
    settledOn: (day) => loadOn(day, 'is-left-out'),
    carried: residents.length === 0 ? exactly(0) : (told ?? byWeight(residents, today, 'is-left-out')),
    days,
    unknown: fed.filter(
      (animal) => animal.kind.asymptoticCm === undefined || (!known(animal) && !(told !== undefined && isResident(animal))),
    ),
    isTold: told !== undefined,
    proteinIsTold: tank.feedProtein !== undefined,
  };
}

/** Ammonia of the food that is told. Without its protein it may be frozen or dry, which differ widely. */
function toldAmmonia({ tank }: Stock, { frozenProtein, dryProtein }: NitrogenOptions): Band | undefined {
  const { feedGPerDay, feedProtein } = tank;
  if (feedGPerDay === undefined) return undefined;
  if (feedProtein !== undefined) return ammonia(feedGPerDay, feedProtein.centre, logUp(feedProtein), feedProtein.basis);
  const middle = Math.sqrt(frozenProtein * dryProtein);
  return ammonia(feedGPerDay, middle, Math.log(dryProtein / middle), 'recalled');
}

function ammonia(feed: Band, protein: number, proteinError: number, basis: Band['basis']): Band {
  const centre = ammoniaFromFeed(feed.centre, protein);
  const error = Math.log(AMMONIA_SPREAD);
  if (centre === 0) return { low: 0, centre, high: 0, basis: 'measured' };
  return {
    low: centre / Math.exp(together(logDown(feed), proteinError, error)),
    centre,
    high: centre * Math.exp(together(logUp(feed), proteinError, error)),
    basis: weakest(feed.basis, basis, 'derived'),
  };
}
