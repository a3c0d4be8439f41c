/** Most steps of one search; what is found by then is returned as not proven. */
const MOST_STEPS = 50_000;

/** Most whole orders that are put to `works`, which may be dear. */
const MOST_TRIES = 300;

/** Whether an item may stand at a position behind those placed so far. */
export type Fits = (item: number, position: number, placed: readonly number[]) => boolean;

/** Has the last word on a whole order. */
export type Works = (order: readonly number[]) => boolean;

/**
 * What is left to an item that still waits behind those placed so far: 0 where it will not fit any more, however it goes on, else
 * a number that stands for its prospects. Two ways to place the same items in which each of the others has the same number left
 * must be able to go on alike.
 */
export type Left = (item: number, placed: readonly number[]) => number;

/** What narrows an order down beside its cost. */
export interface Limits {
  readonly fits: Fits;
  readonly works?: Works | undefined;
  readonly left?: Left | undefined;
}

/** The items placed so far, as bits, and for each item whether it waits. Bits hold up to 31 items. */
export interface Placed {
  readonly set: number;
  readonly waits: readonly boolean[];
}

/** What it costs to place an item next, and what all that comes behind it costs at least. */
export interface Steps {
  readonly price: (placed: Placed, item: number) => number;
  readonly rest: (placed: Placed, item: number) => number;
}

/** Which orders are looked for. */
export interface Aim {
  /** Only orders that cost less. */
  readonly below: number;
  /** Stop at the first. */
  readonly takeFirst: boolean;
  /** Items in their own order instead of the most promising first. */
  readonly inOrder: boolean;
}

/** What a search came to; no order costs less than `atLeast`, whether found or not. */
export interface Found {
  readonly order: readonly number[] | undefined;
  readonly cost: number;
  readonly atLeast: number;
}

/**
 * Depth first over the orders of `count` items that cost less than a limit: the cheapest, or the first at all.
 *
 * It is cut where what is spent and what the rest costs at least reach the best so far, where nothing is `left` to an item, and
 * where the same items were placed before at no higher price with as much left to each of the others.
 */
export function search(count: number, { price, rest }: Steps, { fits, works, left }: Limits, { below, takeFirst, inOrder }: Aim): Found {
  const placed: number[] = [];
  const waits = Array.from({ length: count }, () => true);
  const seen = new Map<string, number>();
  let best: readonly number[] | undefined;
  let most = below;
  let open = Number.POSITIVE_INFINITY;
  let [steps, tries] = [0, 0];
  const isOver = (): boolean => steps > MOST_STEPS || tries > MOST_TRIES || (takeFirst && best !== undefined);

  const weigh = (spent: number): void => {
    if (works !== undefined) tries += 1;
    if (tries > MOST_TRIES) open = Math.min(open, spent);
    else if (works === undefined || works(placed)) {
      best = [...placed];
      most = spent;
    }
  };

  /** Whether it can go on from here to something that was not seen. */
  const isOpen = (spent: number): boolean => {
    if (left === undefined) return true;
    let key = '';
    for (let item = 0; item < count; item += 1) {
      if (waits[item]) {
        const number = left(item, placed);
        if (number === 0) return false;
        key += number;
      }
      key += ',';
    }
    // What has the last word knows more of an order than what is left.
    if (works !== undefined) return true;
    if ((seen.get(key) ?? Number.POSITIVE_INFINITY) <= spent) return false;
    seen.set(key, spent);
    return true;
  };

  const descend = (set: number, spent: number): void => {
    if (placed.length === count) {
      weigh(spent);
      return;
    }
    if (!isOpen(spent)) return;
    const here = { set, waits };
    const items: number[] = [];
    const prices: number[] = [];
    const bounds: number[] = [];
    for (let item = 0; item < count; item += 1) {
      if (!waits[item]) continue;
      const itsPrice = price(here, item);
      const bound = spent + itsPrice + rest(here, item);
      if (!(bound < most)) continue;
      let at = items.length;
      if (!inOrder) while (at > 0 && (bounds[at - 1] as number) > bound) at -= 1;
      items.splice(at, 0, item);
      prices.splice(at, 0, itsPrice);
      bounds.splice(at, 0, bound);
    }
    for (let at = 0; at < items.length; at += 1) {
      const [item, bound] = [items[at] as number, bounds[at] as number];
      if (isOver()) {
        open = Math.min(open, bound);
        continue;
      }
      if (bound >= most || !fits(item, placed.length, placed)) continue;
      steps += 1;
      placed.push(item);
      waits[item] = false;
      descend(set | (1 << item), spent + (prices[at] as number));
      waits[item] = true;
      placed.pop();
    }
  };
  descend(0, 0);
  return {
    order: best,
    cost: best === undefined ? Number.POSITIVE_INFINITY : most,
    atLeast: Math.min(open, best === undefined ? below : most),
  };
}
