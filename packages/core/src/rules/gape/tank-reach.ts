import type { Stock, StockAnimal } from '../../stock/stock.js';
import { arrivalOf } from '../presence.js';
import type { GapeOptions } from './options.js';
import { canBePrey, neverFits, preyOf, sideOf, swallowerOf } from './sides.js';

/** What the mouths and the bodies of a tank come to, taken together. */
export interface TankReach {
  /** Whether a newcomer can for good neither swallow nor be swallowed by any of them, whatever the errors. False says nothing. */
  readonly isOut: (newcomer: StockAnimal) => boolean;
}

/**
 * The widest mouth and the smallest body of a tank, so that a newcomer is compared with two animals in place of all: whoever is out of reach of the
 * widest mouth is out of reach of each.
 */
export function reachInto(stock: Stock, options: Readonly<Record<string, number>>): TankReach {
  const gapeOptions = options as GapeOptions;
  const lastDay = stock.animals.reduce((last, animal) => Math.max(last, arrivalOf(stock, animal)), stock.horizonDay);
  const sides = stock.animals.map(sideOf);
  const mouths = sides
    .filter(({ animal }) => animal.kind.gapeClass !== 'notGapeLimited')
    .map((side) => swallowerOf(side, lastDay, gapeOptions));
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
  return {
    isOut: (newcomer) => {
      const side = sideOf(newcomer);
      const day = arrivalOf(stock, newcomer);
      const last = Math.max(lastDay, day);
      const swallows = newcomer.kind.gapeClass !== 'notGapeLimited' && bodies.length > 0;
      if (swallows && !neverFits(swallowerOf(side, last, gapeOptions), smallest)) return false;
      return !canBePrey(newcomer) || mouths.length === 0 || neverFits(widest, preyOf(side, day));
    },
  };
}
