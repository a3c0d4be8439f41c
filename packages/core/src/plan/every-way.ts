import type { StockAnimal } from '../stock/stock.js';
import type { Asked } from '../check/check.js';
import { excludes, findingsWith, type Ground, mayFail } from './ground.js';
import type { Lengths } from './lengths.js';
import type { Pick } from './line.js';
import type { Meets } from './any-order.js';

/** Most ways of bringing one set in that are tried, and most for a whole plan. */
const MOST_WAYS = 400;
const MOST_WAYS_IN_ALL = 4000;

/** Most batches put at a place on the way there. */
const MOST_STEPS = 20_000;

/** How a set comes in: batches in order, and lengths. */
export interface Way {
  readonly order: readonly number[];
  readonly lengths: Lengths;
}

/** A way that works; without one, `all` where every way was tried. */
export interface EveryWay {
  readonly way: Way | undefined;
  readonly all: boolean;
}

/**
 * Tries every order of the batches at every length of the lines, for what hangs on the whole of a set and so cannot be cut short:
 * who rules the tank, what turns its ammonia over, who holds it when a newcomer comes.
 */
export function everyWay(
  ground: Ground,
  picks: readonly Pick[],
  batches: number,
  meetsAt: (lengths: Lengths) => Meets,
  animalsOf: (way: Way) => readonly StockAnimal[],
): EveryWay {
  let tried = 0;
  let steps = 0;
  const orders = (lengths: Lengths): Way | undefined => {
    const meets = meetsAt(lengths);
    const place = (placed: readonly number[]): Way | undefined => {
      if (isOver()) return undefined;
      if (placed.length === batches) return works({ order: placed, lengths });
      for (let item = 0; item < batches; item += 1) {
        const position = placed.length;
        steps += 1;
        if (placed.includes(item) || meets(item, position, item, position)) continue;
        if (placed.some((other, at) => meets(item, position, other, at))) continue;
        const found = place([...placed, item]);
        if (found !== undefined) return found;
      }
      return undefined;
    };
    return place([]);
  };
  const works = (way: Way): Way | undefined => {
    tried += 1;
    const newcomers = animalsOf(way);
    const ids = new Set(newcomers.map(({ id }) => id));
    const isOut = (asked: Asked): boolean => findingsWith(ground, newcomers, [asked]).some((finding) => excludes(ground, finding, ids));
    return ground.sets.excluding.some((asked) => mayFail(ground, asked.rule, newcomers) && isOut(asked)) ? undefined : way;
  };
  const isOver = (): boolean => tried > MOST_WAYS || steps > MOST_STEPS;
  const withLengths = (at: number, lengths: ReadonlyMap<string, number>): Way | undefined => {
    const pick = picks[at];
    if (pick === undefined) return orders(lengths);
    for (let length = 0; length < Math.max(1, pick.line.lengthsCm.length); length += 1) {
      const found = withLengths(at + 1, new Map(lengths).set(pick.line.id, length));
      if (found !== undefined || isOver()) return found;
    }
    return undefined;
  };
  if (ground.spent.ways > MOST_WAYS_IN_ALL) return { way: undefined, all: false };
  const { work } = ground.spent;
  const way = withLengths(0, new Map());
  // Ways have a limit of their own: for the search each is one piece of work, not one a rule.
  ground.spent.work = work + tried;
  // Fifty steps take about as long as one way.
  ground.spent.ways += tried + steps / 50;
  return { way, all: !isOver() };
}
