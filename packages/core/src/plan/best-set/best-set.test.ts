import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../../tests/support/runs.js';
import { type Held, setsByForce } from '../../../../../tests/support/sets-by-force.js';
import { bestSet, type Said, type SetProblem } from './index.js';

/** Small problems of every kind of constraint; whole values, and decimals of which sums are rounded. */
const problems: fc.Arbitrary<SetProblem> = fc.integer({ min: 0, max: 9 }).chain((count) => {
  const option = fc.nat({ max: Math.max(0, count - 1) });
  const options = (most: number): fc.Arbitrary<number[]> => (count === 0 ? fc.constant([]) : fc.array(option, { maxLength: most }));
  const numbers = fc.oneof(
    fc.array(fc.nat({ max: 6 }), { minLength: count, maxLength: count }),
    fc.array(fc.constantFrom(0, 0.1, 0.2, 0.3, 0.7, 1.1), { minLength: count, maxLength: count }),
    fc.array(fc.constantFrom(0, 1, 1e6, 1e6 + 1, 3e14, 3e14 + 1), { minLength: count, maxLength: count }),
  );
  const most = fc.oneof(fc.nat({ max: 12 }), fc.constantFrom(0.3, 0.6, 1.2, 1e6, 6e14, -1));
  const limit = fc.record({ uses: numbers, most, only: option }, { requiredKeys: ['uses', 'most'] });
  const pairs = fc.array(fc.tuple(option, option), { maxLength: count });
  return fc.record({
    values: numbers,
    groups: fc.array(options(3), { maxLength: 3 }),
    conflicts: count === 0 ? fc.constant([]) : pairs,
    limits: count === 0 ? fc.constant([]) : fc.array(limit, { maxLength: 4 }),
    musts: fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, { weight: 2, arbitrary: fc.array(options(4), { maxLength: 3 }) }),
  });
});

const keyOf = (options: readonly number[]): string => options.join(' ');

describe('without a last word', () => {
  it('finds what trying all sets finds', () => {
    fc.assert(
      fc.property(problems, (problem) => {
        const sets = setsByForce(problem);
        const found = bestSet(problem);
        expect(found.proven).toBe(true);
        expect(found.value).toBe(sets[0]?.value ?? Number.NEGATIVE_INFINITY);
        expect(found.bound).toBe(found.value);
        if (sets.length === 0) expect(found.options).toBeUndefined();
        else expect(sets.map(({ options }) => keyOf(options))).toContain(keyOf(found.options ?? []));
      }),
      { numRuns: runs(3000) },
    );
  });
});

describe('with a last word', () => {
  /** Words on sets by a hidden table: some sets are turned down alone, and some options are not together. */
  const words = fc.record({
    share: fc.integer({ min: 0, max: 100 }),
    seed: fc.nat({ max: 1000 }),
    bad: fc.array(fc.uniqueArray(fc.nat({ max: 8 }), { maxLength: 4 }), { maxLength: 4 }),
    isTied: fc.boolean(),
  });

  const isDown = (options: readonly number[], share: number, seed: number): boolean =>
    (options.reduce((sum, option) => (sum * 31 + option + 7) % 10007, seed + 11) * 53) % 100 < share;

  it('offers each set once, finds the best that is taken, and all equals where they are wanted', () => {
    fc.assert(
      fc.property(problems, words, (problem, { share, seed, bad, isTied }) => {
        const sets = setsByForce(problem);
        const isBad = (options: readonly number[]): readonly number[] | undefined =>
          bad.find((row) => row.every((option) => options.includes(option)));
        const fine = sets.filter(({ options }) => isBad(options) === undefined && !isDown(options, share, seed));
        const offered: Held[] = [];
        const learnt: (readonly number[])[] = [];
        let best = Number.NEGATIVE_INFINITY;
        const say = (options: readonly number[], value: number): Said => {
          offered.push({ options, value });
          expect(isTied ? value >= best : value > best).toBe(true);
          expect(learnt.some((row) => row.every((option) => options.includes(option)))).toBe(false);
          const row = isBad(options);
          if (row !== undefined) {
            learnt.push(row);
            return row;
          }
          if (isDown(options, share, seed)) return 'not-this';
          best = value;
          return 'taken';
        };
        const found = bestSet(problem, { say, ties: () => isTied });
        const keys = offered.map(({ options }) => keyOf(options));
        expect(new Set(keys).size).toBe(keys.length);
        const all = new Map(sets.map(({ options, value }) => [keyOf(options), value]));
        for (const { options, value } of offered) expect(all.get(keyOf(options))).toBe(value);
        expect(found).toMatchObject({ proven: true, value: fine[0]?.value ?? Number.NEGATIVE_INFINITY });
        expect(found.bound).toBe(found.value);
        if (isTied) for (const { options, value } of fine) if (value === found.value) expect(keys).toContain(keyOf(options));
      }),
      { numRuns: runs(3000) },
    );
  });
});

const plain: SetProblem = { values: [4, 3, 2], groups: [], conflicts: [[0, 1]], limits: [], musts: [] };

/** A problem whose options are numbered otherwise: option `at` becomes `order[at]`. */
const renumbered = ({ values, groups, conflicts, limits, musts }: SetProblem, order: readonly number[]): SetProblem => {
  const to = (option: number): number => order[option] ?? 0;
  const moved = (numbers: readonly number[]): number[] => {
    const result = [...numbers];
    for (const [at, number] of numbers.entries()) result[to(at)] = number;
    return result;
  };
  return {
    values: moved(values),
    groups: groups.map((group) => group.map(to)),
    conflicts: conflicts.map(([one, other]): [number, number] => [to(one), to(other)]),
    limits: limits.map(({ uses, most, only }) => ({ uses: moved(uses), most, ...(only === undefined ? {} : { only: to(only) }) })),
    musts: musts.map((row) => row.map(to)),
  };
};

/** Problems beside each other that have nothing to do with each other. */
const beside = (parts: readonly SetProblem[]): SetProblem => {
  const count = parts.reduce((sum, { values }) => sum + values.length, 0);
  let from = 0;
  const moved = parts.map((part) => {
    const first = from;
    from += part.values.length;
    const to = (option: number): number => option + first;
    return {
      values: part.values,
      groups: part.groups.map((group) => group.map(to)),
      conflicts: part.conflicts.map(([one, other]): [number, number] => [to(one), to(other)]),
      limits: part.limits.map(({ uses, most, only }) => {
        const wide = Array.from({ length: count }, (_, at) => uses[at - first] ?? 0);
        return { uses: wide, most, ...(only === undefined ? {} : { only: to(only) }) };
      }),
      musts: part.musts.map((row) => row.map(to)),
    };
  });
  return {
    values: moved.flatMap(({ values }) => values),
    groups: moved.flatMap(({ groups }) => groups),
    conflicts: moved.flatMap(({ conflicts }) => conflicts),
    limits: moved.flatMap(({ limits }) => limits),
    musts: moved.flatMap(({ musts }) => musts),
  };
};

const isWhole = ({ values, limits }: SetProblem): boolean =>
  [...values, ...limits.flatMap(({ uses, most }) => [...uses, most])].every((number) => Number.isInteger(number));

describe('more options than a word has bits', () => {
  it('problems that have nothing to do with each other are worth what they are worth together, numbered in any order', () => {
    // Groups lie around the small problems, so that these are spread over the words. Their values lie so far apart that only the best of each
    // counts; otherwise every near miss in one would have to be tried with every near miss in the others.
    const value = fc.nat({ max: 50 }).map((many) => 1000 * many);
    const groups = fc.array(fc.uniqueArray(value, { minLength: 3, maxLength: 3 }), { minLength: 12, maxLength: 30 });
    const small = problems.filter((problem) => isWhole(problem) && problem.values.every((each) => each <= 6));
    const hard = fc.tuple(small, small);
    fc.assert(
      fc.property(groups, hard, fc.nat(), (rows, [one, other], seed) => {
        const easy = rows.map((values): SetProblem => ({ values, groups: [[0, 1, 2]], conflicts: [], limits: [], musts: [] }));
        const problem = beside([one, ...easy, other]);
        const hardest = [one, other].map((part) => setsByForce(part)[0]?.value ?? Number.NEGATIVE_INFINITY);
        const bests = [...hardest, ...rows.map((values) => Math.max(...values))];
        // A fixed shuffle: steps through the numbers by one that shares no divisor with their count.
        const count = problem.values.length;
        const shares = (one: number, other: number): boolean => (other === 0 ? one !== 1 : shares(other, one % other));
        let step = 1 + (seed % Math.max(1, count));
        while (shares(step, count)) step += 1;
        const order = problem.values.map((_, at) => (at * step) % count);
        const worth = bests.reduce((sum, best) => sum + best, 0);
        for (const each of [problem, renumbered(problem, order)])
          expect(bestSet(each)).toMatchObject({ value: worth, proven: true, bound: worth });
      }),
      { numRuns: runs(200) },
    );
  });

  it('takes 512 options, and all of them where nothing stands against it', () => {
    const values = Array.from({ length: 512 }, (_, option) => option);
    expect(bestSet({ values, groups: [], conflicts: [], limits: [], musts: [] })).toMatchObject({ value: (511 * 512) / 2, proven: true });
  });
});

describe('a search that is ended early', () => {
  it('says what it found, and a bound that no set passes', () => {
    let early = 0;
    fc.assert(
      fc.property(problems, fc.nat({ max: 12 }), fc.boolean(), (problem, most, byCaller) => {
        const sets = setsByForce(problem);
        let asked = 0;
        const isOver = (): boolean => {
          asked += 1;
          return asked > most;
        };
        const found = bestSet(problem, byCaller ? { isOver } : { mostSteps: most });
        const best = sets[0]?.value ?? Number.NEGATIVE_INFINITY;
        expect(found.steps).toBeLessThanOrEqual(most);
        expect(found.bound).toBeGreaterThanOrEqual(best);
        expect(found.value).toBeLessThanOrEqual(best);
        if (found.options !== undefined) expect(sets.map(({ options }) => keyOf(options))).toContain(keyOf(found.options));
        if (found.proven) expect([found.value, found.bound]).toEqual([best, best]);
        else early += 1;
      }),
      { numRuns: runs(2000) },
    );
    expect(early).toBeGreaterThan(0);
  });

  it('asks for the last word no more once it is over', () => {
    let isOver = false;
    const offered: (readonly number[])[] = [];
    const say = (options: readonly number[]): Said => {
      offered.push(options);
      isOver = true;
      return 'not-this';
    };
    expect(bestSet(plain, { say, isOver: () => isOver })).toEqual({
      options: undefined,
      value: -Infinity,
      proven: false,
      bound: 6,
      steps: expect.any(Number),
    });
    expect(offered).toEqual([[0, 2]]);
  });
});

describe('what is offered', () => {
  it('comes by value, also sets that could be larger, down to the empty one', () => {
    const offered: string[] = [];
    const found = bestSet(plain, {
      say: (options, value) => {
        offered.push(`${keyOf(options)}=${value}`);
        return 'not-this';
      },
    });
    expect(offered).toEqual(['0 2=6', '1 2=5', '0=4', '1=3', '2=2', '=0']);
    expect(found).toMatchObject({ options: undefined, value: -Infinity, bound: -Infinity, proven: true });
  });

  it('is nothing that has all of a reason once named', () => {
    const offered: string[] = [];
    const values = [8, 4, 2, 1];
    const say = (options: readonly number[]): Said => {
      offered.push(keyOf(options));
      return options.includes(0) && options.includes(1) ? [0, 1] : 'taken';
    };
    expect(bestSet({ values, groups: [], conflicts: [], limits: [], musts: [] }, { say })).toMatchObject({
      options: [0, 2, 3],
      proven: true,
    });
    expect(offered).toEqual(['0 1 2 3', '0 2 3']);
  });

  it('is something small before long where all that is worth most is turned down', () => {
    const values = Array.from({ length: 30 }, (_, option) => 100 + option);
    let asked = 0;
    let first = 0;
    const say = (options: readonly number[]): Said => {
      asked += 1;
      if (options.length > 3) return 'not-this';
      if (first === 0) first = asked;
      return 'taken';
    };
    const found = bestSet({ values, groups: [], conflicts: [], limits: [], musts: [] }, { say, isOver: () => asked >= 200 });
    // The three worth most, after a dozen sets turned down and one option at a time.
    expect(found).toMatchObject({ options: [27, 28, 29], proven: false });
    expect(first).toBeLessThan(20);
    expect(found.bound).toBeGreaterThan(found.value);
  });
});

describe('what is no problem', () => {
  const limit = { uses: [1, 1, 1], most: 2 };
  it.each<[string, Partial<SetProblem>]>([
    ['more than 512 options', { values: Array.from({ length: 513 }, () => 1), conflicts: [] }],
    ['a value below 0', { values: [1, -1, 1] }],
    ['a value that is no number', { values: [1, Number.NaN, 1] }],
    ['an endless value', { values: [1, Number.POSITIVE_INFINITY, 1] }],
    ['a conflict of no option', { conflicts: [[0, 3]] }],
    ['a group of no option', { groups: [[-1]] }],
    ['a must of no option', { musts: [[0.5]] }],
    ['a limit of two uses for three options', { limits: [{ ...limit, uses: [1, 1] }] }],
    ['a use below 0', { limits: [{ ...limit, uses: [1, -1, 1] }] }],
    ['a limit that is no number', { limits: [{ ...limit, most: Number.NaN }] }],
    ['a limit on no option', { limits: [{ ...limit, only: 3 }] }],
  ])('%s', (_name, part) => {
    expect(() => bestSet({ ...plain, ...part })).toThrow(/^bestSet: expected .+, received /);
    expect(() => bestSet({ ...plain, ...part })).toThrow(RangeError);
  });

  it('a reason that names an option which is not in the set', () => {
    expect(() => bestSet(plain, { say: () => [1] })).toThrow(/^bestSet: expected a reason made of options of the set, received 1/);
  });
});

describe('a reason of rows', () => {
  const problem = {
    values: [3, 2, 3, 2, 3, 2],
    groups: [
      [0, 1],
      [2, 3],
      [4, 5],
    ],
    conflicts: [],
    limits: [],
    musts: [],
  };

  it('keeps out every set with one of each, and no other, as force does', () => {
    // Of three groups one each is never let in, whatever is learnt of it and when.
    for (const rows of [
      [
        [0, 1],
        [2, 3],
        [4, 5],
      ],
      [[0, 1], [2], [4, 5]],
      [[0], [2, 3]],
      [[0, 1]],
    ]) {
      const isOut = (options: readonly number[]): boolean => rows.every((row) => row.some((option) => options.includes(option)));
      const { options, proven } = bestSet(problem, { say: (set) => (isOut(set) ? rows : 'taken') });
      const best = setsByForce(problem).filter((set) => !isOut(set.options))[0];
      expect(proven).toBe(true);
      expect(options?.reduce((sum, option) => sum + (problem.values[option] ?? 0), 0)).toBe(best?.value);
      expect(isOut(options ?? [])).toBe(false);
    }
  });

  it('names one option of the set in each row, all of one group', () => {
    expect(() => bestSet(problem, { say: () => [[0, 2]] })).toThrow(RangeError);
    expect(() => bestSet(problem, { say: () => [[1]] })).toThrow(RangeError);
  });
});
