/**
 * The best set, maximal sets and minimal conflicts against published values: DIMACS clique instances by their formulas, counts of maximal sets
 * of known graphs, worked examples of minimal conflicts.
 */
import { describe, expect, it } from 'vitest';
import { bestSet, type SetProblem } from '../../packages/core/src/plan/best-set/index.js';
import { maximalSets } from '../support/maximal-sets.js';
import { minimalConflict } from '../../packages/core/src/plan/minimal-conflict.js';
import { setsByForce } from '../support/sets-by-force.js';

type Pair = readonly [number, number];

const numbersTo = (count: number): number[] => Array.from({ length: count }, (_, number) => number);

const pairsOf = (count: number, isPair: (one: number, other: number) => boolean): Pair[] =>
  numbersTo(count).flatMap((one) => numbersTo(one).flatMap((other): Pair[] => (isPair(other, one) ? [[other, one]] : [])));

const onesIn = (word: number): number => [...word.toString(2)].filter((bit) => bit === '1').length;

/** A graph by its non-edges, which are the conflicts of a clique. */
interface Instance {
  readonly count: number;
  readonly conflicts: readonly Pair[];
}

/** hamming n-d: words of n bits, an edge where two differ in at least d. */
const hamming = (bits: number, distance: number): Instance => {
  const count = 2 ** bits;
  return { count, conflicts: pairsOf(count, (one, other) => onesIn(one ^ other) < distance) };
};

/** johnson n-w-d: words of n bits with w ones in increasing order, an edge where two differ in at least d. */
const johnson = (bits: number, weight: number, distance: number): Instance => {
  const words = numbersTo(2 ** bits).filter((word) => onesIn(word) === weight);
  return {
    count: words.length,
    conflicts: pairsOf(words.length, (one, other) => onesIn((words[one] ?? 0) ^ (words[other] ?? 0)) < distance),
  };
};

/** The 72 non-edges of MANN_a9 [read from the file]: 1 to 9 each with one vertex of four of the twelve triangles behind them. */
const mann = (): Instance => {
  const rows = [
    [10, 19, 22, 25],
    [11, 28, 31, 34],
    [12, 37, 40, 43],
    [13, 23, 29, 44],
    [14, 20, 32, 41],
    [15, 26, 35, 38],
    [16, 27, 33, 45],
    [17, 24, 36, 42],
    [18, 21, 30, 39],
  ];
  const spokes = rows.flatMap((row, at) => row.map((vertex): Pair => [at, vertex - 1]));
  const triangles = numbersTo(12).flatMap((at): Pair[] => {
    const first = 9 + 3 * at;
    return [
      [first, first + 1],
      [first, first + 2],
      [first + 1, first + 2],
    ];
  });
  return { count: 45, conflicts: [...spokes, ...triangles] };
};

const problemOf = ({ count, conflicts }: Instance, values: readonly number[] = numbersTo(count).map(() => 1)): SetProblem => ({
  values,
  groups: [],
  conflicts,
  limits: [],
  musts: [],
});

/** Vertices numbered from 1 weigh i mod 200 and one more, as in the weighted DIMACS instances. */
const weighted = (instance: Instance): SetProblem =>
  problemOf(
    instance,
    numbersTo(instance.count).map((at) => ((at + 1) % 200) + 1),
  );

describe('largest cliques of the second DIMACS challenge, and heaviest with weights i mod 200 + 1', () => {
  it.each([
    { name: 'johnson8-2-4', instance: johnson(8, 2, 4), edges: 210, largest: 4, heaviest: 66 },
    { name: 'MANN_a9', instance: mann(), edges: 918, largest: 16, heaviest: 372 },
    { name: 'hamming6-4', instance: hamming(6, 4), edges: 704, largest: 4, heaviest: 134 },
    { name: 'hamming6-2', instance: hamming(6, 2), edges: 1824, largest: 32, heaviest: 1072 },
  ])('$name: $largest, $heaviest', ({ instance, edges, largest, heaviest }) => {
    expect((instance.count * (instance.count - 1)) / 2 - instance.conflicts.length).toBe(edges);
    expect(bestSet(problemOf(instance))).toMatchObject({ value: largest, proven: true, bound: largest });
    expect(bestSet(weighted(instance))).toMatchObject({ value: heaviest, proven: true, bound: heaviest });
  });

  it('johnson16-2-4: 8, and 548 by weight', () => {
    const instance = johnson(16, 2, 4);
    expect((instance.count * (instance.count - 1)) / 2 - instance.conflicts.length).toBe(5460);
    expect(bestSet(problemOf(instance))).toMatchObject({ value: 8, proven: true });
    expect(bestSet(weighted(instance))).toMatchObject({ value: 548, proven: true });
  });

  it.each([
    ['johnson8-2-4', johnson(8, 2, 4), [9, 12, 16, 25], 66],
    ['hamming6-4', hamming(6, 4), [3, 29, 38, 60], 134],
    ['johnson16-2-4', johnson(16, 2, 4), [35, 42, 50, 59, 69, 80, 92, 113], 548],
  ] as const)('a published heaviest clique of %s is one here, so that vertices are numbered alike', (_name, instance, clique, heaviest) => {
    const isIn = (vertex: number): boolean => (clique as readonly number[]).includes(vertex + 1);
    expect(instance.conflicts.filter(([one, other]) => isIn(one) && isIn(other))).toEqual([]);
    expect(clique.reduce((sum, vertex) => sum + (vertex % 200) + 1, 0)).toBe(heaviest);
  });
});

describe('groups, conflicts and two limits (made up here, checked by trying all sets)', () => {
  const options = [
    ['A', 1, 9, 40, 3],
    ['B', 1, 8, 30, 2],
    ['C', 2, 7, 20, 2],
    ['C', 4, 10, 40, 4],
    ['D', 5, 9, 25, 5],
    ['D', 8, 12, 40, 8],
    ['E', 1, 6, 60, 4],
    ['F', 1, 5, 10, 1],
    ['G', 3, 6, 30, 3],
    ['H', 1, 4, 5, 1],
  ] as const;
  const between = ['AB', 'AC', 'BE', 'DE', 'EG', 'CG'];
  const problem: SetProblem = {
    values: options.map(([, , value]) => value),
    groups: [...'ABCDEFGH'].map((species) => numbersTo(10).filter((at) => options[at]?.[0] === species)),
    conflicts: pairsOf(10, (one, other) => between.includes(`${options[one]?.[0]}${options[other]?.[0]}`)),
    limits: [
      { uses: options.map(([, , , use]) => use), most: 120 },
      { uses: options.map(([, , , , use]) => use), most: 12 },
    ],
    musts: [],
  };
  const named = (numbers: readonly number[] = []): string => numbers.map((at) => `${options[at]?.[0]}${options[at]?.[1]}`).join(' ');

  it('is worth 33 at best, by one set, of 114', () => {
    const found = bestSet(problem);
    expect(found).toMatchObject({ value: 33, proven: true });
    expect(named(found.options)).toBe('B1 C2 D5 F1 H1');
    const all = setsByForce(problem);
    expect(all).toHaveLength(114);
    expect(all.filter(({ value }) => value >= 33)).toHaveLength(1);
    expect(
      all
        .filter(({ value }) => value === 32)
        .map((set) => named(set.options))
        .sort(),
    ).toEqual(['B1 C4 D5 F1', 'B1 D5 F1 G3 H1']);
  });

  it('offers the next best where the best are turned down', () => {
    const offered: string[] = [];
    const found = bestSet(problem, {
      say: (set, value) => {
        offered.push(named(set));
        return value > 31 ? 'not-this' : 'taken';
      },
    });
    expect(offered.slice(0, 3).sort()).toEqual(['B1 C2 D5 F1 H1', 'B1 C4 D5 F1', 'B1 D5 F1 G3 H1']);
    expect(found).toMatchObject({ value: 31, proven: true });
    expect(named(found.options)).toBe('B1 C4 D5 H1');
  });

  it('has five maximal sets of species, limits apart', () => {
    const species = [...'ABCDEFGH'];
    const conflicts = between.map(([one = '', other = '']): Pair => [species.indexOf(one), species.indexOf(other)]);
    const sets = [...maximalSets(8, conflicts)].map((set) => set.map((at) => species[at]).join(''));
    expect(sets.sort()).toEqual(['ADFGH', 'AEFH', 'BCDFH', 'BDFGH', 'CEFH']);
  });
});

describe('maximal sets of known graphs', () => {
  const countOf = (count: number, conflicts: Iterable<Pair>): number => [...maximalSets(count, conflicts)].length;

  it('cycles have Perrin numbers of them (Fueredi 1987, from memory)', () => {
    const cycle = (count: number): Pair[] => numbersTo(count).map((at): Pair => [at, (at + 1) % count]);
    const counts = numbersTo(13).map((at) => countOf(at + 3, cycle(at + 3)));
    expect(counts).toEqual([3, 2, 5, 5, 7, 10, 12, 17, 22, 29, 39, 51, 68]);
  });

  it('paths have Padovan numbers of them', () => {
    const path = (count: number): Pair[] => numbersTo(count - 1).map((at): Pair => [at, at + 1]);
    expect(numbersTo(15).map((at) => countOf(at + 1, path(at + 1)))).toEqual([1, 2, 2, 3, 4, 5, 7, 9, 12, 16, 21, 28, 37, 49, 65]);
  });

  it.each([1, 2, 3, 4, 5, 6, 7])('%d triangles have 3 to that power (Moon and Moser 1965, from memory)', (triangles) => {
    const conflicts = pairsOf(3 * triangles, (one, other) => Math.floor(one / 3) === Math.floor(other / 3));
    expect(countOf(3 * triangles, conflicts)).toBe(3 ** triangles);
  });

  it('the Petersen graph has 15, of 4 at most', () => {
    // Two-element subsets of five, joined where they share nothing.
    const subsets: number[][] = pairsOf(5, () => true).map((pair) => [...pair]);
    const conflicts = pairsOf(10, (one, other) => !subsets[one]?.some((element) => subsets[other]?.includes(element)));
    expect(conflicts).toHaveLength(15);
    const sets = [...maximalSets(10, conflicts)];
    expect(sets).toHaveLength(15);
    expect(Math.max(...sets.map((set) => set.length))).toBe(4);
  });

  it('hamming6-4 has 224 maximal cliques of 2 and 240 of 4, johnson8-2-4 105 of 4', () => {
    const sizes = ({ count, conflicts }: Instance): Record<number, number> => {
      const bySize: Record<number, number> = {};
      for (const { length } of maximalSets(count, conflicts)) bySize[length] = (bySize[length] ?? 0) + 1;
      return bySize;
    };
    expect(sizes(hamming(6, 4))).toEqual({ 2: 224, 4: 240 });
    expect(sizes(johnson(8, 2, 4))).toEqual({ 4: 105 });
  });

  it('the graph 6-4, 4-5, 4-3, 3-2, 2-5, 2-1, 5-1 has five maximal cliques', () => {
    const edges = ['4 6', '4 5', '3 4', '2 3', '2 5', '1 2', '1 5'];
    const conflicts = pairsOf(6, (one, other) => !edges.includes(`${one + 1} ${other + 1}`));
    const cliques = [...maximalSets(6, conflicts)].map((set) => set.map((at) => at + 1).join(' '));
    expect(cliques.sort()).toEqual(['1 2 5', '2 3', '3 4', '4 5', '4 6']);
  });
});

describe('minimal conflicts', () => {
  function* ordersOf<T>(items: readonly T[]): Generator<T[]> {
    if (items.length === 0) yield [];
    for (const [at, first] of items.entries())
      for (const rest of ordersOf([...items.slice(0, at), ...items.slice(at + 1)])) yield [first, ...rest];
  }

  describe('a budget and an exclusion (O’Sullivan, Papadopoulos, Faltings and Pu 2007, AAAI)', () => {
    // c1: at most 3000 in all; c2 and c3 exclude each other.
    const costs: Readonly<Record<string, number>> = { c2: 500, c3: 500, c4: 500, c5: 2600 };
    const isFeasible = (items: readonly string[]): boolean => {
      const cost = items.reduce((sum, item) => sum + (costs[item] ?? 0), 0);
      return !(items.includes('c1') && cost > 3000) && !(items.includes('c2') && items.includes('c3'));
    };
    const published = ['c1 c2 c5', 'c1 c3 c5', 'c1 c4 c5', 'c2 c3'];

    it('every order of preference leads to one of the four published, and each is found', () => {
      const found = new Set(
        [...ordersOf(['c1', 'c2', 'c3', 'c4', 'c5'])].map((items) => minimalConflict(items, isFeasible)?.sort().join(' ')),
      );
      expect([...found].sort()).toEqual(published);
    });

    it('the best set shares the constraint: c1 as a limit that holds only with it', () => {
      const names = ['c1', 'c2', 'c3', 'c4', 'c5'];
      const problem: SetProblem = {
        values: names.map(() => 1),
        groups: [],
        conflicts: [[1, 2]],
        limits: [{ uses: names.map((name) => costs[name] ?? 0), most: 3000, only: 0 }],
        musts: [],
      };
      const offered: string[] = [];
      const say = (options: readonly number[]): 'taken' => {
        offered.push(options.map((at) => names[at]).join(' '));
        return 'taken';
      };
      // The consistent sets of three; {c1, c5} is maximal as well, but smaller.
      expect(bestSet(problem, { say, ties: () => true })).toMatchObject({ value: 3, proven: true });
      expect(offered.sort()).toEqual(['c1 c2 c4', 'c1 c3 c4', 'c2 c4 c5', 'c3 c4 c5']);
    });
  });

  describe('five costs and a budget of 3000 (Junker 2004, AAAI, tables 1 and 2)', () => {
    const costs = [500, 500, 800, 500, 2600];
    const isFeasible = (items: readonly number[]): boolean => items.reduce((sum, item) => sum + (costs[item - 1] ?? 0), 0) <= 3000;

    it.each([
      { order: [5, 4, 3, 2, 1], expected: [5, 4] },
      { order: [1, 2, 3, 4, 5], expected: [1, 5] },
    ])('order $order: $expected', ({ order, expected }) => {
      expect(minimalConflict(order, isFeasible)).toEqual(expected);
    });

    it('every order leads to the fifth with one other, and each is found', () => {
      const found = new Set([...ordersOf([1, 2, 3, 4, 5])].map((order) => minimalConflict(order, isFeasible)?.sort().join(' ')));
      expect([...found].sort()).toEqual(['1 5', '2 5', '3 5', '4 5']);
    });
  });
});
