/** Orders and days against examples of voting, scheduling and temporal reasoning that stand for themselves. */
import { describe, expect, it } from 'vitest';
import { type BestOrder, bestOrder, cheapestOrder } from '../../packages/core/src/plan/best-order.js';
import type { Fits, Works } from '../../packages/core/src/plan/best-order/search.js';
import { type TimeBound, tightestBounds, timesOf } from '../../packages/core/src/plan/time-network.js';
import { fitsAll, lagLimits, pairsCost, permutations, ranked } from '../support/orders.js';

const anywhere: Fits = () => true;

/** The cheapest orders one after the other, each found where those before are forbidden. */
function cheapestOnes(many: number, find: (works: Works) => BestOrder): { readonly order: string; readonly cost: number }[] {
  const seen: { order: string; cost: number }[] = [];
  while (seen.length < many) {
    const { order, cost, exact } = find((tried) => !seen.some((one) => one.order === tried.join(' ')));
    expect(exact).toBe(true);
    if (order === undefined) break;
    seen.push({ order: order.join(' '), cost });
  }
  return seen;
}

/** Each set of orders of one cost, as which of them comes first among equals is not what is asked. */
const groups = (found: readonly { readonly order: string; readonly cost: number }[]): Record<number, string[]> => {
  const byCost: Record<number, string[]> = {};
  for (const { order, cost } of found) byCost[cost] = [...(byCost[cost] ?? []), order].sort();
  return byCost;
};

describe('Kemeny: the order that disagrees least with the voters', () => {
  // The capital of Tennessee, in per cent of voters: Memphis, Nashville, Chattanooga, Knoxville (electowiki, Kemeny-Young
  // method). The cost of a before b is the share of those who prefer b.
  const prefer = [
    [0, 42, 42, 42],
    [58, 0, 68, 68],
    [58, 32, 0, 83],
    [58, 32, 17, 0],
  ];
  const cost = (before: number, after: number): number => prefer[after]?.[before] ?? 0;

  it('Nashville, Chattanooga, Knoxville, Memphis at a distance of 207', () => {
    expect(bestOrder(4, cost, anywhere)).toEqual({ order: [1, 2, 3, 0], cost: 207, atLeast: 207, exact: true });
  });

  it('the second best is Nashville, Chattanooga, Memphis, Knoxville, with 377 of 600 agreements', () => {
    // The second and its 377 were made out here over all 24 orders.
    expect(cheapestOnes(2, (works) => bestOrder(4, cost, anywhere, works))[1]).toEqual({ order: '1 2 0 3', cost: 600 - 377 });
    expect(
      ranked(4, (order) => pairsCost(order, cost))
        .map((one) => one.cost)
        .slice(0, 2),
    ).toEqual([207, 600 - 377]);
  });

  it('A over B 60 to 40, B over C 65 to 35, C over A 75 to 25: B, C, A at 120, and each other order as listed', () => {
    // electowiki.
    const shares = [
      [0, 60, 25],
      [40, 0, 65],
      [75, 35, 0],
    ];
    const round = (before: number, after: number): number => shares[after]?.[before] ?? 0;
    expect(bestOrder(3, round, anywhere)).toEqual({ order: [1, 2, 0], cost: 120, atLeast: 120, exact: true });
    const all = cheapestOnes(7, (works) => bestOrder(3, round, anywhere, works));
    expect(groups(all)).toEqual({ 120: ['1 2 0'], 130: ['2 0 1'], 150: ['0 1 2', '2 1 0'], 170: ['1 0 2'], 180: ['0 2 1'] });
  });
});

describe('one machine, one job after the other', () => {
  /** Prices a job by the time at which it ends, which is all that stands before it, and itself. */
  const byEnd =
    (takes: readonly number[], price: (job: number, end: number) => number) =>
    (set: number, job: number): number =>
      price(
        job,
        takes.reduce((sum, time, other) => ((set | (1 << job)) & (1 << other) ? sum + time : sum), 0),
      );

  it('total tardiness: 370 days, in two orders', () => {
    // Pinedo, Scheduling: theory, algorithms, and systems (figures from memory, made out again over all 120 orders).
    const due = [260, 266, 266, 336, 337];
    const price = byEnd([121, 79, 147, 83, 130], (job, end) => Math.max(0, end - (due[job] as number)));
    expect(cheapestOrder(5, price)).toEqual({ order: [0, 1, 3, 4, 2], cost: 370, atLeast: 370, exact: true });
    const [first, second, third] = cheapestOnes(3, (works) => cheapestOrder(5, price, anywhere, works));
    expect([first, second].map((one) => one?.order).sort()).toEqual(['0 1 3 4 2', '1 0 3 4 2']);
    expect(second?.cost).toBe(370);
    expect(third?.cost).toBeGreaterThan(370);
  });

  it('the greatest of costs that grow with the end: 10, in two orders', () => {
    // Pinedo, as above, from memory: 2, 3 and 5 days, h1 = 1 + C, h2 = 1.2 C, h3 = 10. The greatest is no sum: it is the least limit that can be kept.
    const costs = [(end: number) => 1 + end, (end: number) => 1.2 * end, () => 10];
    const within = (most: number) => byEnd([2, 3, 5], (job, end) => ((costs[job]?.(end) ?? 0) > most ? Number.POSITIVE_INFINITY : 0));
    expect(groups(cheapestOnes(7, (works) => cheapestOrder(3, within(10), anywhere, works)))).toEqual({ 0: ['0 1 2', '1 0 2'] });
    expect(cheapestOrder(3, within(9.99))).toEqual({ order: undefined, cost: Infinity, atLeast: Infinity, exact: true });
  });

  it('weighted ends: 45, in two orders, as prices by the end and as costs of pairs', () => {
    // Made up here, checked by brute force below. The ratios of weight to time of Smith 1956 put jobs 1 and 3 first, which tie.
    const takes = [3, 1, 4, 2];
    const weights = [1, 3, 2, 6];
    const price = byEnd(takes, (job, end) => (weights[job] as number) * end);
    const found = groups(cheapestOnes(2, (works) => cheapestOrder(4, price, anywhere, works)));
    expect(found).toEqual({ 45: ['1 3 2 0', '3 1 2 0'] });
    // Every job waits for those before it, and takes its own time.
    const own = takes.reduce((sum, time, job) => sum + time * (weights[job] as number), 0);
    const pairs = (before: number, after: number): number => (takes[before] as number) * (weights[after] as number);
    expect(bestOrder(4, pairs, anywhere)).toMatchObject({ order: [1, 3, 2, 0], cost: 45 - own });
    const all = ranked(4, (order) => own + pairsCost(order, pairs));
    expect(all.filter(({ cost }) => cost <= 45)).toEqual([
      { order: [1, 3, 2, 0], cost: 45 },
      { order: [3, 1, 2, 0], cost: 45 },
    ]);
  });
});

describe('how many orders keep a precedence', () => {
  const arcs = {
    N: [
      [0, 2],
      [1, 2],
      [1, 3],
    ],
    grid: [
      [0, 1],
      [1, 2],
      [3, 4],
      [4, 5],
      [0, 3],
      [1, 4],
      [2, 5],
    ],
    subsets: [
      [0, 1],
      [0, 2],
      [0, 4],
      [1, 3],
      [1, 5],
      [2, 3],
      [2, 6],
      [4, 5],
      [4, 6],
      [3, 7],
      [5, 7],
      [6, 7],
    ],
    chain: [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 4],
    ],
    none: [],
  } as const;

  // Counts of linear extensions of small posets, made out again by adding up over subsets; n! without any, 1 of a chain.
  it.each([
    ['the "N" of four', 4, arcs.N, 5],
    ['a grid of two by three', 6, arcs.grid, 5],
    ['the subsets of three', 8, arcs.subsets, 48],
    ['a chain of five', 5, arcs.chain, 1],
    ['none among four', 4, arcs.none, 24],
    ['none among five', 5, arcs.none, 120],
  ] as const)('%s', (_, count, before, expected) => {
    const asCost = (one: number, other: number): number =>
      before.some(([first, second]) => first === other && second === one) ? Number.POSITIVE_INFINITY : 0;
    const asFits: Fits = (item, __, placed) => before.every(([first, second]) => item !== second || placed.includes(first));
    for (const [cost, fits] of [[() => 0, asFits] as const, [asCost, anywhere] as const]) {
      // Nothing works, so that each order is tried.
      const tried: string[] = [];
      const found = bestOrder(count, cost, fits, (order) => {
        tried.push(order.join());
        return false;
      });
      expect(found).toMatchObject({ order: undefined, exact: true });
      expect(tried).toHaveLength(expected);
      expect(new Set(tried).size).toBe(expected);
    }
  });
});

describe('introductions with gaps and with residents that grow', () => {
  // Cleaners, gobies, clowns, wrasses, dwarf angels, hawkfish; made up here, checked by brute force over all 720 orders. Days
  // follow from the gap after each batch; a hawkfish already there would swallow gobies at once, clowns after 30 and wrasses
  // after 60 days; wrasses would swallow gobies after 50.
  const gapAfter = [21, 14, 14, 14, 21, 14];
  const wanted: Readonly<Record<string, number>> = {
    '1-4': 5,
    '2-4': 4,
    '3-4': 3,
    '1-5': 6,
    '2-5': 5,
    '3-5': 5,
    '4-5': 2,
    '2-3': 2,
    '4-1': 1,
    '5-2': 3,
  };
  const swallowedAfter: Readonly<Record<string, number>> = { '5-1': 0, '5-2': 30, '5-3': 60, '3-1': 50 };
  const items = gapAfter.map((_, item) => item);
  const { fits: keepsLags, left } = lagLimits(
    gapAfter,
    items.map((before) => items.map((after) => swallowedAfter[`${before}-${after}`] ?? Number.POSITIVE_INFINITY)),
  );
  const keepsPrecedence: Fits = (item, _, placed) => (item === 0 || placed.includes(0)) && (item !== 3 || placed.includes(1));
  const fits: Fits = (item, position, placed) => keepsPrecedence(item, position, placed) && keepsLags(item, position, placed);
  const cost = (before: number, after: number): number => wanted[`${after}-${before}`] ?? 0;
  const dayOf = (order: readonly number[], item: number): number =>
    order.slice(0, order.indexOf(item)).reduce((day, before) => day + (gapAfter[before] as number), 0);

  it('cost 4, in two orders, and 6 is next, with hawkfish before dwarf angels', () => {
    expect(bestOrder(6, cost, fits)).toEqual({ order: items, cost: 4, atLeast: 4, exact: true });
    expect(bestOrder(6, cost, fits, undefined, left)).toEqual({ order: items, cost: 4, atLeast: 4, exact: true });
    const [first, second, third] = cheapestOnes(3, (works) => bestOrder(6, cost, fits, works, left));
    expect([first, second].map((one) => one?.order).sort()).toEqual(['0 1 2 3 4 5', '0 2 1 3 4 5']);
    expect([second?.cost, third?.cost]).toEqual([4, 6]);
    const before = (third?.order ?? '').split(' ').map(Number);
    expect(before.indexOf(5)).toBeLessThan(before.indexOf(4));
    expect(dayOf(before, before[5] as number)).toBe(77);
  });

  it('by brute force: 36 of 60 orders fit, at 4 to 24', () => {
    const precedent = [...permutations(6)].filter((order) => fitsAll(order, keepsPrecedence));
    const fitting = ranked(
      6,
      (order) => pairsCost(order, cost),
      (order) => fitsAll(order, fits),
    );
    expect([precedent.length, fitting.length]).toEqual([60, 36]);
    expect(fitting.slice(0, 3).map((one) => one.cost)).toEqual([4, 4, 6]);
    expect(fitting.at(-1)).toEqual({ order: [0, 4, 1, 5, 3, 2], cost: 24 });
  });

  /** An order as bounds: each batch a gap behind the one before, and none so late that it would be swallowed. */
  const boundsOf = (order: readonly number[]): TimeBound[] => [
    ...order.slice(1).map((item, at) => ({ from: item, to: order[at], atMost: -(gapAfter[order[at] as number] as number) })),
    ...Object.entries(swallowedAfter).flatMap(([pair, days]) => {
      const [before, after] = pair.split('-').map(Number) as [number, number];
      // Before the day on which it would be: at most the day before.
      return order.indexOf(before) < order.indexOf(after) ? [{ from: before, to: after, atMost: days - 1 }] : [];
    }),
  ];

  it('days 0, 21, 35, 49, 63 and 84', () => {
    for (const order of [items, [0, 2, 1, 3, 4, 5]]) {
      const { earliest } = timesOf(6, boundsOf(order)) as { readonly earliest: readonly number[] };
      expect(order.map((item) => earliest[item])).toEqual([0, 21, 35, 49, 63, 84]);
      expect(order.map((item) => dayOf(order, item))).toEqual([0, 21, 35, 49, 63, 84]);
    }
  });

  it('an order keeps the lags exactly where there are days that do', () => {
    let clashing = 0;
    for (const order of permutations(6)) {
      const { cycle } = timesOf(6, boundsOf(order));
      expect(cycle === undefined).toBe(fitsAll(order, keepsLags));
      if (cycle !== undefined) clashing += 1;
    }
    expect(clashing).toBeGreaterThan(0);
  });
});

describe('John and Fred on their way to work', () => {
  // Dechter, Meiri & Pearl 1991, Artificial Intelligence 49: 61-95, figures from memory: John leaves between 7:10 and 7:20 and is on his way for 30 to
  // 40 minutes; Fred arrives between 8:00 and 8:10 after 40 to 50; John arrives 10 to 20 minutes after Fred has left. Minutes behind
  // 7:00, which is point 0.
  const spans = [
    [0, 1, 10, 20],
    [1, 2, 30, 40],
    [3, 2, 10, 20],
    [3, 4, 40, 50],
    [0, 4, 60, 70],
  ] as const;
  const bounds = (list: readonly (readonly [number, number, number, number])[]): TimeBound[] =>
    list.flatMap(([from, to, least, most]) => [
      { from, to, atMost: most },
      { from: to, to: from, atMost: -least },
    ]);

  it('the tightest bounds between any two', () => {
    // The last row and column are day 0, which nothing here is tied to.
    expect(
      tightestBounds(5, bounds(spans))
        ?.map((row) => row.slice(0, 5))
        .slice(0, 5),
    ).toEqual([
      [0, 20, 50, 30, 70],
      [-10, 0, 40, 20, 60],
      [-40, -30, 0, -10, 30],
      [-20, -10, 20, 0, 50],
      [-60, -50, -20, -40, 0],
    ]);
  });

  it('with 7:00 as day 0: John leaves at 10 to 20 and arrives at 40 to 50, Fred leaves at 20 to 30 and arrives at 60 to 70', () => {
    const fromZero = bounds(spans).map(
      ({ from, to, atMost }): TimeBound => ({
        from: from === 0 ? undefined : (from as number) - 1,
        to: to === 0 ? undefined : (to as number) - 1,
        atMost,
      }),
    );
    expect(timesOf(4, fromZero)).toEqual({ earliest: [10, 40, 20, 60], latest: [20, 50, 30, 70] });
  });

  it('Fred cannot have left before 7:15 as well', () => {
    // John left at 7:10 or later, took 30 minutes or more and came 20 minutes after Fred had left at the most: Fred left at 7:20 or
    // later.
    const early: TimeBound = { from: 0, to: 3, atMost: 15 };
    const { cycle } = timesOf(5, [...bounds(spans), early]);
    expect(cycle).toHaveLength(4);
    expect(cycle).toContain(early);
    expect(cycle?.reduce((sum, { atMost }) => sum + atMost, 0)).toBe(-5);
  });
});
