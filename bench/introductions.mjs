/**
 * The cheapest order of twelve batches. Costs between any two are random, gaps are two or three weeks, and of each ordered pair the one may, with
 * a chance, not go in any more from some day after the other: a lag. Beside it the same search without bounds and all orders one by one, where
 * they come to an end.
 */
import { bestOrder } from '../packages/core/dist/plan/best-order.js';
import { priceOfPairs } from '../packages/core/dist/plan/best-order/price-of-pairs.js';
import { search } from '../packages/core/dist/plan/best-order/search.js';
import { medians, randomFrom } from './measure.mjs';
import { goalRow, heading, row, times } from './table.mjs';

const INSTANCES = 100;
/** Where plainer ways take their time, or each takes long. */
const FEW = 10;
const DENSITIES = [0, 0.05, 0.1, 0.2];
const GOAL_MS = 5;
const EVERYTHING = { below: Infinity, takeFirst: false, inOrder: false };

/** Batches in which one in four lags means never behind, and the others some day before the last. */
function instanceOf(random, count, density) {
  const rows = (entry) => Array.from({ length: count }, (_, before) => Array.from({ length: count }, (__, after) => entry(before, after)));
  const gapAfter = Array.from({ length: count }, () => (random() < 0.3 ? 21 : 14));
  const costs = rows(() => 10 * random());
  const lag = () => (random() < 0.25 ? 0 : Math.floor(14 * count * random()));
  const lags = rows((before, after) => (before !== after && random() < density ? lag() : Infinity));
  /** Days until a waiting batch may not go in any more. */
  const left = (item, placed) => {
    let [since, least] = [0, Infinity];
    for (let at = placed.length - 1; at >= 0; at -= 1) {
      since += gapAfter[placed[at]];
      least = Math.min(least, lags[placed[at]][item] - since);
    }
    return Math.max(0, least);
  };
  return {
    count,
    // What may not even be the next behind another must stand before it.
    cost: (before, after) => (lags[before][after] <= gapAfter[before] ? Infinity : costs[before][after]),
    fits: (item, _, placed) => left(item, placed) > 0,
    left,
  };
}

const instancesOf = (count, density, many) => {
  const random = randomFrom(12 + 1000 * density);
  return Array.from({ length: many }, () => instanceOf(random, count, density));
};

const solve = ({ count, cost, fits, left }) => bestOrder(count, cost, fits, undefined, left);

/** The same search with nothing known of what is to come. */
const withoutBounds = ({ count, cost, fits }) => {
  const price = priceOfPairs(count, cost);
  return search(count, { price: ({ set }, item) => price(set, item), rest: () => 0 }, { fits }, EVERYTHING);
};

/** The least cost over all orders that fit, one by one. */
function byForce({ count, cost, fits }) {
  let least = Infinity;
  const placed = [];
  const place = (spent) => {
    if (placed.length === count) least = Math.min(least, spent);
    for (let item = 0; item < count; item += 1) {
      if (placed.includes(item) || !fits(item, placed.length, placed)) continue;
      const price = placed.reduce((sum, before) => sum + cost(before, item), spent);
      placed.push(item);
      place(price);
      placed.pop();
    }
  };
  place(0);
  return least;
}

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

/** Milliseconds of each instance: the median of three calls, once all of it is compiled. */
function timesOf(instances, way) {
  for (let round = 0; round < 3; round += 1) instances.forEach(way);
  return instances.map((instance) =>
    median(
      [0, 1, 2].map(() => {
        const from = performance.now();
        way(instance);
        return performance.now() - from;
      }),
    ),
  );
}

const milliseconds = (number) => `${number.toFixed(2)} ms`;

/** Sums of the same costs in another order differ in their last digits. */
const isSame = (one, other) => one === other || Math.abs(one - other) < 1e-9 * Math.max(1, one);

/** Prints the rows, and returns whether all was right. */
export function benchIntroductions() {
  heading(
    `Orders of introductions: ${INSTANCES} random sets of 12 batches for each share of pairs with a lag (absolute: hangs on this machine)`,
  );
  for (const density of DENSITIES) {
    const instances = instancesOf(12, density, INSTANCES);
    const found = instances.map(solve);
    const spent = timesOf(instances, solve);
    const what = `lags ${density}`;
    goalRow(`${what}: median`, median(spent), { atMost: GOAL_MS, show: milliseconds });
    row('  slowest', milliseconds(Math.max(...spent)));
    row(
      '  proven; of these no order at all',
      `${found.filter(({ exact }) => exact).length}; ${found.filter(({ exact, order }) => exact && order === undefined).length}`,
    );
    const blind = instances.map(({ count, cost, fits }) => bestOrder(count, cost, fits));
    row('  proven without being told what is left to batches that wait', String(blind.filter(({ exact }) => exact).length));
  }

  heading(`The same with ${FEW} sets of 8 batches, against plainer ways`);
  let wrong = 0;
  for (const density of DENSITIES) {
    const instances = instancesOf(8, density, FEW);
    wrong += instances.filter((instance) => !isSame(solve(instance).cost, byForce(instance))).length;
    const ended = instances.filter((instance) => {
      const { cost, atLeast } = withoutBounds(instance);
      return cost === atLeast;
    });
    const over = (way, list) => () => list.forEach(way);
    const plain = medians({ own: over(solve, ended), plain: over(withoutBounds, ended) }, { rounds: 3, secondsOfWarmth: 0.1 });
    row(`lags ${density}: the search without bounds over it, on the ${ended.length} sets on which it ends`, times(plain.plain / plain.own));
    const all = medians({ own: over(solve, instances), force: over(byForce, instances) }, { rounds: 1, secondsOfWarmth: 0.1 });
    row('  all orders one by one over it', times(all.force / all.own));
  }
  goalRow('costs that differ from the least of all orders', wrong, { atMost: 0, show: String });

  heading(`The same with ${FEW} sets of 20 batches, beyond what is weighed exactly`);
  for (const density of DENSITIES) {
    const instances = instancesOf(20, density, FEW);
    const found = instances.map(solve).filter(({ order }) => order !== undefined);
    row(`lags ${density}: median`, milliseconds(median(timesOf(instances, solve))));
    const shares = found.map(({ cost, atLeast }) => (100 * (cost - atLeast)) / cost);
    row(
      '  orders found; how far from the best at most, median',
      `${found.length}; ${shares.length === 0 ? '-' : `${median(shares).toFixed(0)} %`}`,
    );
  }
  return wrong === 0;
}
