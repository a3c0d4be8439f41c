import { momentsOf } from './moments.js';

/** Shares of the variance of an output that come from one variable. */
export interface SobolIndex {
  /** From the variable alone; what is lost of the variance, on average, when it is known. */
  readonly first: number;
  /** With all its interplay; what is left of the variance, on average, when all others are known. */
  readonly total: number;
  /** Half width of the 95 % interval of either, from the spread between batches of points. */
  readonly firstError: number;
  readonly totalError: number;
}

/** Batches of points whose indices are compared to tell the error. */
const BATCHES = 16;

/** z of a 95 % interval; t of 15 degrees of freedom, as there are 16 batches. */
const T_15 = 2.131449545559323;

interface Sums {
  readonly outputs: ReturnType<typeof momentsOf>;
  readonly first: Float64Array;
  readonly total: Float64Array;
  points: number;
}

const sumsFor = (variables: number): Sums => ({
  outputs: momentsOf(),
  first: new Float64Array(variables),
  total: new Float64Array(variables),
  points: 0,
});

/**
 * First-order and total Sobol indices from the outputs of a sensitivity design, handed over scenario by scenario as it lays them out (A, B, A with each variable in turn taken from
 * B). First order by the estimator `mean(B (AB_i - A)) / V` of Saltelli et al. 2010 (Computer Physics Communications 181: 259-270, table 2, b), total by
 * `mean((A - AB_i)^2) / 2V` of Jansen 1999 (same table, f); V is the variance over A and B. The mean of the outputs is taken off B first, which changes nothing
 * in the limit and much of the error. Errors are those of batch means.
 */
export function sobolIndices(
  variables: number,
  points: number,
  centre: number,
): { readonly add: (output: number) => void; readonly result: () => readonly SobolIndex[] } {
  const all = sumsFor(variables);
  const batches = Array.from({ length: BATCHES }, () => sumsFor(variables));
  const inPoint = new Float64Array(variables + 2);
  let at = 0;
  let point = 0;
  const take = (sums: Sums): void => {
    const a = (inPoint[0] as number) - centre;
    const b = (inPoint[1] as number) - centre;
    sums.outputs.add(a);
    sums.outputs.add(b);
    sums.points += 1;
    for (let variable = 0; variable < variables; variable += 1) {
      const mixed = (inPoint[variable + 2] as number) - centre;
      sums.first[variable] = (sums.first[variable] as number) + b * (mixed - a);
      sums.total[variable] = (sums.total[variable] as number) + (a - mixed) * (a - mixed);
    }
  };
  return {
    add: (output) => {
      inPoint[at] = output;
      at += 1;
      if (at < inPoint.length) return;
      at = 0;
      take(all);
      take(batches[Math.floor((point * BATCHES) / points)] as Sums);
      point += 1;
    },
    result: () =>
      Array.from({ length: variables }, (_, variable) => {
        const firsts = batches.map((batch) => firstOf(batch, variable));
        const totals = batches.map((batch) => totalOf(batch, variable));
        return { first: firstOf(all, variable), total: totalOf(all, variable), firstError: errorOf(firsts), totalError: errorOf(totals) };
      }),
  };
}

const firstOf = ({ outputs, first, points }: Sums, variable: number): number => (first[variable] as number) / points / outputs.variance();
const totalOf = ({ outputs, total, points }: Sums, variable: number): number =>
  (total[variable] as number) / points / (2 * outputs.variance());

function errorOf(values: readonly number[]): number {
  const moments = momentsOf();
  for (const value of values) moments.add(value);
  return T_15 * Math.sqrt(moments.variance() / BATCHES);
}
