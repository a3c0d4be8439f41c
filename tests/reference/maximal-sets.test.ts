import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../support/runs.js';
import { maximalSets } from '../support/maximal-sets.js';

describe('maximalSets', () => {
  it('finds all maximal sets without a conflict, each once, as trying all sets does', () => {
    const graphs = fc.nat({ max: 9 }).chain((count) => {
      const option = fc.nat({ max: Math.max(0, count - 1) });
      return fc.tuple(fc.constant(count), count === 0 ? fc.constant([]) : fc.array(fc.tuple(option, option), { maxLength: 2 * count }));
    });
    fc.assert(
      fc.property(graphs, ([count, conflicts]) => {
        const isFree = (mask: number): boolean =>
          !conflicts.some(([one, other]) => ((mask >>> one) & 1) === 1 && ((mask >>> other) & 1) === 1);
        const options = Array.from({ length: count }, (_, option) => option);
        const isMaximal = (mask: number): boolean =>
          options.every((option) => ((mask >>> option) & 1) === 1 || !isFree(mask | (1 << option)));
        const masks = Array.from({ length: 2 ** count }, (_, mask) => mask).filter((mask) => isFree(mask) && isMaximal(mask));
        const expected = masks.map((mask) => options.filter((option) => ((mask >>> option) & 1) === 1).join(' '));
        const found = [...maximalSets(count, conflicts)].map((set) => set.join(' '));
        expect(found.length).toBeGreaterThan(0);
        expect(found.sort()).toEqual(expected.sort());
      }),
      { numRuns: runs(1000) },
    );
  });

  it('hands out the first of 3^20 sets at once', () => {
    const triangles = Array.from({ length: 20 }, (_, at) => 3 * at);
    const conflicts = triangles.flatMap((at): [number, number][] => [
      [at, at + 1],
      [at, at + 2],
      [at + 1, at + 2],
    ]);
    const first: number[][] = [];
    for (const set of maximalSets(60, conflicts)) {
      first.push(set);
      if (first.length === 100) break;
    }
    expect(new Set(first.map((set) => set.join(' '))).size).toBe(100);
    for (const set of first) expect(set).toHaveLength(20);
  });

  it.each([[-1], [1.5], [Number.NaN]])('takes no count of %d', (count) => {
    expect(() => [...maximalSets(count, [])]).toThrow(RangeError);
  });

  it.each([[3], [-1], [0.5]])('takes no option %d of three', (option) => {
    expect(() => [...maximalSets(3, [[0, option]])]).toThrow(/maximalSets: expected option numbers/);
  });
});
