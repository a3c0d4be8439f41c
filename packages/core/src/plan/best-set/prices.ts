import type { SetProblem } from './problem.js';

/** What the limits that always hold cost at fixed prices: for any set within them, the prices of its options sum to at most `room`. */
export interface Prices {
  readonly price: Float64Array;
  readonly room: number;
}

/** A limit as a share: uses over what it allows, so that limits in litres and in pieces weigh alike. */
interface Share {
  readonly uses: Float64Array;
  readonly most: number;
}

const ROUNDS = 60;
/** Strides below this change a bound by less than it is off anyway. */
const FINEST = 1 / 100;

/**
 * Prices of the limits under which the bound at the root is low: the sum over cliques of the best value less price, and what all
 * limits cost at their fullest (Lagrangian relaxation; the prices are found by subgradient steps towards `floor`, the worth of a known
 * set). Any prices would do; these only cut best.
 *
 * Prices are rounded down, and the room up, to multiples of a power of two so large that sums of them and of whole values are
 * exact in doubles: with whole values a bound is then never off by rounding.
 */
export function pricesOf(problem: SetProblem, cliques: readonly (readonly number[])[], floor: number): Prices {
  const { values } = problem;
  const shares = sharesOf(problem);
  const price = new Float64Array(values.length);
  const cut = shares.map(() => 0);
  let best = { bound: Number.POSITIVE_INFINITY, cut: [...cut] };
  let stride = 1;
  let since = 0;
  for (let round = 0; round < ROUNDS && stride > FINEST && shares.length > 0; round += 1) {
    priceAt(price, shares, cut);
    let bound = costOf(shares, cut);
    const left = shares.map(({ most }) => most);
    for (const clique of cliques) {
      let top = 0;
      let topOption = -1;
      for (const option of clique) {
        const rest = (values[option] ?? 0) - (price[option] ?? 0);
        if (rest > top) {
          top = rest;
          topOption = option;
        }
      }
      bound += top;
      if (topOption >= 0) for (let at = 0; at < left.length; at += 1) left[at] = (left[at] ?? 0) - (shares[at]?.uses[topOption] ?? 0);
    }
    since += 1;
    if (bound < best.bound) {
      best = { bound, cut: [...cut] };
      since = 0;
    } else if (since >= 4) {
      stride /= 2;
      since = 0;
    }
    const pull = left.reduce((sum, each) => sum + each * each, 0);
    if (pull === 0 || bound <= floor) break;
    const step = (stride * (bound - floor)) / pull;
    for (let at = 0; at < cut.length; at += 1) cut[at] = Math.max(0, (cut[at] ?? 0) - step * (left[at] ?? 0));
  }
  priceAt(price, shares, best.cut);
  return rounded(values, price, costOf(shares, best.cut));
}

/** The limits that hold for every set: those without condition, and those on an option that has to be chosen. */
function sharesOf({ limits, musts }: SetProblem): Share[] {
  return limits
    .filter(({ only }) => only === undefined || musts.some((row) => row.length === 1 && row[0] === only))
    .filter(({ most }) => most >= 0 && most < Number.POSITIVE_INFINITY)
    .map(({ uses, most }) => {
      const whole = most > 0 ? most : Math.max(1, ...uses);
      return { uses: Float64Array.from(uses, (use) => use / whole), most: most / whole };
    });
}

function priceAt(price: Float64Array, shares: readonly Share[], cut: readonly number[]): void {
  price.fill(0);
  shares.forEach(({ uses }, at) => {
    const each = cut[at] ?? 0;
    if (each > 0)
      for (let option = 0; option < price.length; option += 1) price[option] = (price[option] ?? 0) + each * (uses[option] ?? 0);
  });
}

const costOf = (shares: readonly Share[], cut: readonly number[]): number =>
  shares.reduce((sum, { most }, at) => sum + (cut[at] ?? 0) * most, 0);

/** Far more than the rounding of a sum of 512 products (about 1e-13), far less than what a bound could gain. */
const SAFE = 1e-11;

function rounded(values: readonly number[], price: Float64Array, cost: number): Prices {
  const sum = (numbers: readonly number[] | Float64Array): number => {
    let total = 0;
    for (const number of numbers) total += number;
    return total;
  };
  const unit = unitFor(Math.max(1, sum(values), sum(price), cost));
  return {
    price: price.map((each) => Math.floor((each * (1 - SAFE)) / unit) * unit),
    room: Math.ceil((cost * (1 + SAFE)) / unit) * unit,
  };
}

/** The finest power of two, down from 1, of which `largest` is at most 2^50 multiples, so that no sum of a few such reaches 2^53. */
function unitFor(largest: number): number {
  let unit = 1;
  while (unit > 1e-12 && (largest / unit) * 2 < 1125899906842624) unit /= 2;
  return unit;
}
