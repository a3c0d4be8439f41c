import type { Stock, StockAnimal } from '../../stock/stock.js';
import { meetingOf } from '../meeting.js';
import { arePartners } from '../partners.js';
import { arrivalOf } from '../presence.js';
import { judgeGape, lastDayOf, measurePair } from './gape.js';
import type { GapeOptions } from './options.js';
import { canBePrey, neverFits, type Prey, preyOf, sideOf, type Swallower, swallowerOf } from './sides.js';

/** The mouths and the bodies of a tank, worked out once for all who might join it on a day. */
export interface TankReach {
  /** Whether a newcomer and one of them come to an error of swallowing, either way. */
  readonly errs: (newcomer: StockAnimal) => boolean;
}

/**
 * Mouths and bodies of a tank, with the widest and the smallest of them: whoever is out of reach of the widest mouth is out of reach of each, so that most newcomers are compared
 * with two animals in place of all.
 */
export function reachInto(stock: Stock, options: GapeOptions, day: number): TankReach {
  const lastDay = Math.max(lastDayOf(stock), day);
  const sides = stock.animals.map(sideOf);
  const mouths = sides.filter(({ animal }) => canSwallow(animal)).map((side) => swallowerOf(side, lastDay, options));
  const bodies = sides.filter(({ animal }) => canBePrey(animal)).map((side) => preyOf(side, arrivalOf(stock, side.animal)));
  // What is not known is NaN, which carries over: then nothing is out of reach.
  const widest = {
    deepestEver: Math.max(...mouths.map(({ deepestEver }) => deepestEver)),
    longestEver: Math.max(...mouths.map(({ longestEver }) => longestEver)),
  };
  const smallest = {
    shallowestEver: Math.min(...bodies.map(({ shallowestEver }) => shallowestEver)),
    shortestEver: Math.min(...bodies.map(({ shortestEver }) => shortestEver)),
  };
  const isError = (swallower: Swallower, body: Prey): boolean => {
    if (neverFits(swallower, body) || arePartners(swallower.animal.kind, body.animal.kind)) return false;
    const meeting = meetingOf(stock, swallower.animal, body.animal);
    if (meeting === undefined) return false;
    const { outcome, level } = judgeGape(measurePair(stock, swallower, body, meeting.from, meeting.until, options, false));
    return outcome === 'failed' && level === 'error';
  };
  return {
    errs: (newcomer) => {
      const side = sideOf(newcomer);
      if (canSwallow(newcomer)) {
        const mouth = swallowerOf(side, lastDay, options);
        if (!neverFits(mouth, smallest) && bodies.some((body) => isError(mouth, body))) return true;
      }
      if (!canBePrey(newcomer)) return false;
      const body = preyOf(side, day);
      return !neverFits(widest, body) && mouths.some((mouth) => isError(mouth, body));
    },
  };
}

const canSwallow = ({ kind }: StockAnimal): boolean => kind.gapeClass !== 'notGapeLimited';
