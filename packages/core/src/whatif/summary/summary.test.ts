import { describe, expect, it } from 'vitest';
import { directionNumbers } from '../design/direction-numbers.js';
import { sobolBits } from '../design/sobol.js';
import type { Column } from '../study/column.js';
import { type OutputSummary, type RowSource, type StudySummary, summaryOf } from './summary.js';

const column = (name: string, of: Column['of'], more: Partial<Column> = {}): Column => ({
  name,
  kind: 'number',
  of,
  description: name,
  ...more,
});
const CODES = ['passed', 'cantTell', 'failed'];

/** Rows that are handed over in blocks of any size. */
function sourceOf(columns: readonly Column[], rows: readonly (readonly number[])[], size: number): RowSource {
  return {
    columns,
    blocks: async function* (names) {
      for (let from = 0; from < rows.length; from += size) {
        const some = rows.slice(from, from + size);
        yield names.map((name) => Float64Array.from(some, (row) => row[columns.findIndex((one) => one.name === name)] as number));
      }
    },
  };
}

const COLUMNS = [
  column('scenario', 'scenario', { kind: 'integer' }),
  column('replicate', 'scenario', { kind: 'integer' }),
  column('pip', 'variable', { kind: 'integer' }),
  column('valid', 'output', { kind: 'integer' }),
  column('outcome', 'output', { kind: 'code', codes: CODES }),
  column('day', 'output', { kind: 'day', unit: 'd' }),
  column('litres', 'output', { unit: 'L' }),
];
const NO = Number.NaN;
const ROWS = [
  [0, 0, 3, 1, 2, 10, 4],
  [1, 0, 3, 1, 2, 30, 0],
  [2, 0, 5, 1, 0, NO, 1],
  [3, 0, 5, 0, NO, NO, NO],
  [4, 1, 3, 1, 2, 20, 2],
  [5, 1, 3, 1, 1, NO, 3],
  [6, 1, 5, 1, 0, NO, 5],
  [7, 1, 5, 1, 0, NO, 6],
];

const output = ({ outputs }: StudySummary, name: string): OutputSummary => outputs.find((one) => one.column.name === name) as OutputSummary;

describe('a summary', () => {
  it('counts, leaves out what is invalid, and says how it changes along a variable', async () => {
    const summary = await summaryOf(sourceOf(COLUMNS, ROWS, 3), { replicates: 2 });
    expect([summary.scenarios, summary.invalid]).toEqual([8, 1]);
    const outcome = output(summary, 'outcome');
    expect(outcome.codes?.map(({ code, count, of }) => [code, count, of])).toEqual([
      ['passed', 3, 7],
      ['cantTell', 1, 7],
      ['failed', 3, 7],
    ]);
    expect(outcome.by[0]?.groups.map(({ value, counted }) => [value, counted?.count, counted?.of])).toEqual([
      [3, 3, 4],
      [5, 0, 3],
    ]);
    // Shares of 2/3 and 1/4: half their difference is the standard error of the mean of two.
    expect(outcome.standardError).toBeCloseTo((2 / 3 - 1 / 4) / 2, 12);
    const day = output(summary, 'day');
    expect([day.told?.count, day.told?.of, day.mean, day.least, day.greatest]).toEqual([3, 7, 20, 10, 30]);
    expect(day.quantiles?.find(({ at }) => at === 0.25)?.value).toBe(15);
    const litres = output(summary, 'litres');
    expect([litres.mean, litres.standardDeviation]).toEqual([3, Math.sqrt(28 / 6)]);
    expect(litres.by[0]?.groups.map(({ mean }) => mean)).toEqual([9 / 4, 4]);
  });

  it('is the same however the rows are cut', async () => {
    const [one, ...others] = await Promise.all([1, 2, 3, 8].map((size) => summaryOf(sourceOf(COLUMNS, ROWS, size), { replicates: 2 })));
    for (const other of others) expect(JSON.stringify(other)).toBe(JSON.stringify(one));
  });

  it('of nothing says nothing', async () => {
    const { scenarios, outputs } = await summaryOf(sourceOf(COLUMNS, [], 1), { replicates: 1 });
    expect(scenarios).toBe(0);
    expect(outputs.map(({ codes, told, by }) => [codes?.length ?? 0, told?.count ?? 0, by.length])).toEqual([
      [0, 0, 0],
      [0, 0, 0],
      [0, 0, 0],
    ]);
  });

  it('cuts variables of many values into tenths with as many scenarios each', async () => {
    const columns = [column('scenario', 'scenario'), column('x', 'variable'), column('y', 'output')];
    const rows = Array.from({ length: 200 }, (_, at) => [at, (at * 37) % 200, (at * 37) % 200]);
    const [{ by } = { by: [] }] = (await summaryOf(sourceOf(columns, rows, 64), { replicates: 1 })).outputs;
    expect(by[0]?.groups.map(({ scenarios }) => scenarios)).toEqual(Array.from({ length: 10 }, () => 20));
    expect(by[0]?.groups[0]?.mean).toBeCloseTo(9.5, 10);
  });

  it('shares out the variance of a sensitivity design, and of one that does not vary says nothing', async () => {
    // y = 3 a + b: shares of 0.9 and 0.1. The points are those of a Sobol sequence, moved off the ends.
    const columns = [
      column('scenario', 'scenario'),
      column('a', 'variable'),
      column('b', 'variable'),
      column('y', 'output'),
      column('same', 'output'),
    ];
    const points = 2048;
    const directions = [0, 1, 2, 3].map(directionNumbers);
    const at = (point: number, dimension: number): number => (sobolBits(point, directions[dimension] as Int32Array) + 0.5) / 4294967296;
    const rows: number[][] = [];
    for (let point = 0; point < points; point += 1) {
      const [a, b, c, d] = [at(point, 0), at(point, 1), at(point, 2), at(point, 3)];
      for (const [x, y] of [
        [a, b],
        [c, d],
        [c, b],
        [a, d],
      ] as const) {
        rows.push([rows.length, x, y, 3 * x + y, 7]);
      }
    }
    const { outputs } = await summaryOf(sourceOf(columns, rows, 1000), { replicates: 1, points });
    const [ofA, ofB] = outputs[0]?.sensitivity ?? [];
    // Evenly laid points of this number are off by less than a hundredth.
    expect(Math.abs((ofA?.first ?? 9) - 0.9)).toBeLessThan(0.01);
    expect(Math.abs((ofB?.total ?? 9) - 0.1)).toBeLessThan(0.01);
    expect(outputs[1]?.sensitivity).toBeUndefined();
  });
});
