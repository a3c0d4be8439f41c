/** The best set against HiGHS, a solver of mixed integer programs (Huangfu and Hall 2018, from memory; as WebAssembly, MIT). */
import highsModule from 'highs';
import { expect, it } from 'vitest';
import { bestSet, type Limit, type SetProblem } from '../../packages/core/src/plan/best-set/index.js';
import { milpText } from '../support/milp.js';

/** The package describes its CommonJS build alone, of which the function is a member; what is imported here is the function itself. */
const loadHighs = highsModule as unknown as typeof highsModule.default;

/** Numbers from 0 to 1 from a seed (mulberry32). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Eight to thirty options in groups of one to three, of changing density, with limits, most of them on condition, and musts. */
function problemFrom(seed: number): SetProblem {
  const random = randomFrom(seed);
  const below = (most: number): number => Math.floor(random() * most);
  const count = 8 + below(23);
  const options = Array.from({ length: count }, (_, option) => option);
  const groups: number[][] = [];
  for (let from = 0; from < count; ) {
    const size = Math.min(1 + below(3), count - from);
    groups.push(options.slice(from, from + size));
    from += size;
  }
  const density = random() * random();
  const conflicts = options.flatMap((one) =>
    options.slice(0, one).flatMap((other): [number, number][] => (random() < density ? [[other, one]] : [])),
  );
  const limits = Array.from({ length: 1 + below(5) }, (): Limit => {
    const uses = options.map(() => (random() < 0.2 ? 0 : 1 + below(40)));
    const most = Math.floor(uses.reduce((sum, use) => sum + use, 0) * (0.1 + 0.3 * random()));
    return random() < 0.4 ? { uses, most } : { uses, most, only: below(count) };
  });
  const musts = Array.from({ length: Math.max(0, below(4) - 1) }, () => [below(count), below(count), below(count)]);
  return { values: options.map(() => below(60)), groups, conflicts, limits, musts };
}

it('is worth what HiGHS finds, and is impossible where HiGHS says so, in 200 problems', async () => {
  const highs = await loadHighs();
  let impossible = 0;
  let onCondition = 0;
  for (let seed = 1; seed <= 200; seed += 1) {
    const problem = problemFrom(seed);
    const { Status, ObjectiveValue } = highs.solve(milpText(problem), { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0 });
    const found = bestSet(problem);
    expect(found.proven).toBe(true);
    onCondition += problem.limits.filter(({ only }) => only !== undefined).length;
    if (found.options === undefined) {
      expect([seed, Status]).toEqual([seed, 'Infeasible']);
      impossible += 1;
      continue;
    }
    expect([seed, Status]).toEqual([seed, 'Optimal']);
    // Values are whole numbers, so that sums that differ do so by 1; the solver allows each variable 1e-6.
    expect(Math.abs(found.value - ObjectiveValue)).toBeLessThan(0.5);
  }
  // Both kinds come up, and conditions do.
  expect(impossible).toBeGreaterThan(0);
  expect(impossible).toBeLessThan(100);
  expect(onCondition).toBeGreaterThan(200);
});
