import type { Column } from '../study/column.js';
import { momentsOf, type Moments } from './moments.js';
import { PASSES, type QuantileSearch, quantileSearch } from './quantile-search.js';
import { type SobolIndex, sobolIndices } from './sobol-indices.js';
import { type ShareInterval, wilson } from './wilson.js';

/** Rows that can be gone through again and again, in the order of scenarios. */
export interface RowSource {
  readonly columns: readonly Column[];
  /** Blocks of rows: of each column named its values. */
  readonly blocks: (names: readonly string[]) => AsyncIterable<readonly Float64Array[]>;
}

/** What of a study its summary hangs on besides the rows. */
export interface SummaryDesign {
  /** Points of a sensitivity design. */
  readonly points?: number | undefined;
  readonly replicates: number;
}

/** So many trials, in so many of which it was so. */
export interface Counted extends ShareInterval {
  readonly count: number;
  readonly of: number;
}

/** Scenarios in which a variable lies at a value, or between two. */
export interface Group {
  readonly value?: number;
  readonly from?: number;
  readonly to?: number;
  /** Of outputs that are so or not. */
  readonly counted?: Counted;
  /** Of figures. */
  readonly mean?: number;
  readonly scenarios: number;
}

export interface ByVariable {
  readonly variable: string;
  readonly groups: readonly Group[];
}

/** What comes out in one column. */
export interface OutputSummary {
  readonly column: Column;
  /** How often each code comes out. */
  readonly codes?: readonly (Counted & { readonly code: string })[];
  /** In how many scenarios there is a figure at all; of days, in how many it happens. */
  readonly told?: Counted;
  readonly mean?: number;
  readonly standardDeviation?: number;
  /** Standard error of the mean from replicates, where there are several. */
  readonly standardError?: number;
  readonly least?: number;
  readonly greatest?: number;
  readonly quantiles?: readonly { readonly at: number; readonly value: number }[];
  /** Along each variable: how often it fails or happens, or the mean. */
  readonly by: readonly ByVariable[];
  readonly sensitivity?: readonly (SobolIndex & { readonly variable: string })[];
}

export interface StudySummary {
  readonly scenarios: number;
  /** Scenarios in which a figure came out that cannot be; they count in nothing else. */
  readonly invalid: number;
  readonly outputs: readonly OutputSummary[];
}

/** Places of the quantiles that are told. */
export const QUANTILES: readonly number[] = [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95];

/** Most values of a variable that are told one by one; of one with more, tenths. */
const MOST_VALUES = 20;
const TENTHS: readonly number[] = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];

/** What counts as being so: a rule that fails, a day on which something happens. Undefined for figures. */
function isSo({ kind, codes }: Column): ((value: number) => boolean) | undefined {
  if (kind === 'day') return (value) => !Number.isNaN(value);
  const failed = codes?.indexOf('failed') ?? -1;
  return failed < 0 ? undefined : (value) => value === failed;
}

/**
 * What comes out of a study: shares with their intervals, means, exact quantiles, how they change along each variable, and of sensitivity designs the shares of
 * variance. Rows are gone through several times in the order of scenarios and none are kept, so that memory does not grow with them, and the same rows give the same digits
 * however the work was split.
 */
export async function summaryOf(source: RowSource, design: SummaryDesign): Promise<StudySummary> {
  const { columns } = source;
  const outputs = columns.filter(({ of, name }) => of === 'output' && name !== 'valid');
  const variables = columns.filter(({ of }) => of === 'variable');
  const hasValid = columns.some(({ name }) => name === 'valid');
  const run = columns.some(({ name }) => name === 'replicate') ? ['replicate'] : [];
  const names = [...outputs, ...variables].map(({ name }) => name).concat(run, hasValid ? ['valid'] : []);
  const eachRow = async (visit: (row: Float64Array, isValid: boolean) => void): Promise<void> => {
    const row = new Float64Array(names.length);
    for await (const block of source.blocks(names)) {
      const [first] = block;
      for (let at = 0; at < (first?.length ?? 0); at += 1) {
        for (let column = 0; column < names.length; column += 1) row[column] = (block[column] as Float64Array)[at] as number;
        visit(row, !hasValid || row[names.length - 1] === 1);
      }
    }
  };

  const tallies = outputs.map((column) => tallyOf(column, design.replicates));
  const searches = [
    ...outputs.map((column) => (column.codes === undefined ? quantileSearch(QUANTILES) : undefined)),
    ...variables.map((column) => (column.codes === undefined ? quantileSearch(TENTHS) : undefined)),
  ];
  const values = variables.map(() => new Set<number>());
  let scenarios = 0;
  let invalid = 0;
  for (let pass = 0; pass < PASSES; pass += 1) {
    await eachRow((row, isValid) => {
      if (pass === 0) {
        scenarios += 1;
        if (!isValid) invalid += 1;
      }
      if (!isValid) return;
      for (let at = 0; at < searches.length; at += 1) searches[at]?.add(row[at] as number);
      if (pass > 0) return;
      const replicate = run.length === 0 ? 0 : (row[outputs.length + variables.length] as number);
      for (const [at, tally] of tallies.entries()) tally.add(row[at] as number, replicate);
      for (const [at, seen] of values.entries()) if (seen.size <= MOST_VALUES) seen.add(row[outputs.length + at] as number);
    });
    for (const search of searches) search?.next();
  }

  const groupings = variables.map((column, at) => groupingOf(column, values[at] as Set<number>, searches[outputs.length + at]));
  const grouped = outputs.map((column) => groupings.map((grouping) => groupsOf(column, grouping)));
  const means = tallies.map((tally) => tally.centre());
  const indices =
    design.points === undefined ? [] : outputs.map((_, at) => sobolIndices(variables.length, design.points as number, means[at] as number));
  await eachRow((row, isValid) => {
    for (const [at, index] of indices.entries()) index?.add(numberFor(outputs[at] as Column, row[at] as number));
    if (!isValid) return;
    for (let output = 0; output < outputs.length; output += 1) {
      for (let variable = 0; variable < variables.length; variable += 1) {
        (grouped[output] as GroupTally[])[variable]?.add(row[outputs.length + variable] as number, row[output] as number);
      }
    }
  });

  return {
    scenarios,
    invalid,
    outputs: outputs.map((column, at) => ({
      column,
      ...(tallies[at] as Tally).told(searches[at]),
      by: variables.flatMap(({ name }, variable) => (grouped[at] as GroupTally[])[variable]?.told(name) ?? []),
      ...sensitivityIn(indices[at]?.result(), variables),
    })),
  };
}

/** An output that never changes has no variance to share out. */
function sensitivityIn(indices: readonly SobolIndex[] | undefined, variables: readonly Column[]): Pick<OutputSummary, 'sensitivity'> {
  if (indices === undefined || indices.some(({ total }) => Number.isNaN(total))) return {};
  return { sensitivity: indices.map((index, at) => ({ variable: (variables[at] as Column).name, ...index })) };
}

/** What is so counts as 1, what is not as 0, figures as they are; other codes have no number. */
function numberFor(column: Column, value: number): number {
  const so = isSo(column);
  if (so !== undefined) return so(value) ? 1 : 0;
  return column.codes === undefined ? value : Number.NaN;
}

const countedOf = (count: number, of: number): Counted => ({ count, of, ...wilson(count, of) });

interface Tally {
  readonly add: (value: number, replicate: number) => void;
  /** Mean of the numbers that it counts as; NaN where some have none. */
  readonly centre: () => number;
  readonly told: (search: QuantileSearch | undefined) => Omit<OutputSummary, 'column' | 'by' | 'sensitivity'>;
}

function tallyOf(column: Column, replicates: number): Tally {
  const figures = momentsOf();
  const numbers = momentsOf();
  const perRun = Array.from({ length: replicates > 1 ? replicates : 0 }, momentsOf);
  const codes = (column.codes ?? []).map(() => 0);
  let rows = 0;
  return {
    add: (value, replicate) => {
      rows += 1;
      if (!Number.isNaN(value)) {
        if (column.codes === undefined) figures.add(value);
        else codes[value] = (codes[value] as number) + 1;
      }
      const number = numberFor(column, value);
      if (Number.isNaN(number)) return;
      numbers.add(number);
      perRun[replicate]?.add(number);
    },
    centre: () => (numbers.count() === rows ? numbers.mean() : Number.NaN),
    told: (search) => {
      const spread = momentsOf();
      for (const one of perRun) spread.add(one.mean());
      const error = perRun.length < 2 ? {} : { standardError: Math.sqrt(spread.variance() / perRun.length) };
      if (column.codes !== undefined) {
        const told = column.codes.map((code, at) => ({ code, ...countedOf(codes[at] as number, rows) })).filter(({ count }) => count > 0);
        return { codes: told, ...(numbers.count() === 0 ? {} : error) };
      }
      return {
        told: countedOf(figures.count(), rows),
        mean: figures.mean(),
        standardDeviation: Math.sqrt(figures.variance()),
        ...error,
        least: figures.least(),
        greatest: figures.greatest(),
        quantiles: (search?.quantiles() ?? []).map((value, at) => ({ at: QUANTILES[at] as number, value })),
      };
    },
  };
}

/** The parts that a variable is cut into: its values, or tenths of what was drawn. */
interface Grouping {
  readonly isValues: boolean;
  /** Values in order, or the ends between tenths. */
  readonly edges: readonly number[];
  readonly count: number;
}

function groupingOf(column: Column, values: ReadonlySet<number>, search: QuantileSearch | undefined): Grouping {
  if (values.size <= MOST_VALUES || search === undefined) {
    const edges = column.codes === undefined ? [...values].sort((one, other) => one - other) : column.codes.map((_, at) => at);
    return { isValues: true, edges, count: edges.length };
  }
  return { isValues: false, edges: search.quantiles(), count: TENTHS.length + 1 };
}

function placeIn({ isValues, edges }: Grouping, value: number): number {
  if (isValues) return edges.indexOf(value);
  let place = 0;
  while (place < edges.length && value > (edges[place] as number)) place += 1;
  return place;
}

interface GroupTally {
  readonly add: (variable: number, output: number) => void;
  readonly told: (variable: string) => ByVariable[];
}

function groupsOf(column: Column, grouping: Grouping): GroupTally {
  const so = isSo(column);
  const moments = Array.from({ length: grouping.count }, momentsOf);
  const counts = new Float64Array(grouping.count);
  const sizes = new Float64Array(grouping.count);
  return {
    add: (variable, output) => {
      const place = placeIn(grouping, variable);
      if (place < 0) return;
      sizes[place] = (sizes[place] as number) + 1;
      if (so === undefined) {
        if (!Number.isNaN(output)) (moments[place] as Moments).add(output);
      } else if (so(output)) counts[place] = (counts[place] as number) + 1;
    },
    told: (variable) => {
      if (grouping.count < 2 || (column.codes !== undefined && so === undefined)) return [];
      const groups = Array.from({ length: grouping.count }, (_, place): Group => {
        const scenarios = sizes[place] as number;
        return {
          ...(grouping.isValues
            ? { value: grouping.edges[place] as number }
            : {
                ...(place === 0 ? {} : { from: grouping.edges[place - 1] as number }),
                ...(place === grouping.edges.length ? {} : { to: grouping.edges[place] as number }),
              }),
          scenarios,
          ...(so === undefined ? { mean: (moments[place] as Moments).mean() } : { counted: countedOf(counts[place] as number, scenarios) }),
        };
      });
      return [{ variable, groups }];
    },
  };
}
