import type { Situation } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { recordWith, situationWith } from '../../tests/support/scene.js';
import type { AnyRule } from '../rules/rule.js';
import { libraryOf } from '../stock/library.js';
import { plan } from './plan.js';

const LETTERS = 'abcdefghijklmnopqrstuvwx'.split('');
const idOf = (item: number): string => `${LETTERS[item]}us-primus`;

const shared = {
  question: '',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'neither' },
  needs: [],
  sources: [],
  defaults: {},
} as const;

/** An error wherever two that an edge joins are together. */
const edges = (pairs: readonly (readonly [number, number])[]): AnyRule => ({
  ...shared,
  id: 'vendor/edge',
  scope: 'pair',
  planning: 'pair',
  measure: ({ animals }, _options, each) => {
    for (const [one, other] of pairs) {
      const [first, second] = [one, other].map((item) => animals.find(({ kind }) => kind.id === idOf(item))?.id);
      if (first !== undefined && second !== undefined) each([first, second]);
    }
  },
  judge: () => ({ outcome: 'failed', level: 'error', message: 'vendor/edge.joined' }),
  tell: (pair) => ({ subjects: (pair as string[]).map((id) => ({ id, role: 'end' })), data: {}, when: null, basis: 'recalled' }),
});

/** An error where the animals together weigh more than a limit. */
const sack = (name: string, weights: readonly number[], limit: number): AnyRule => ({
  ...shared,
  id: `vendor/${name}`,
  scope: 'tank',
  planning: 'capacity',
  measure: ({ animals }, _options, each) =>
    each({
      ids: animals.map(({ id }) => id),
      weight: animals.reduce((sum, { kind, count }) => sum + count * (weights[LETTERS.indexOf(kind.id[0] ?? '')] ?? 0), 0),
    }),
  judge: (measure) =>
    (measure as { weight: number }).weight > limit
      ? { outcome: 'failed', level: 'error', message: `vendor/${name}.full` }
      : { outcome: 'passed', level: 'note', message: '' },
  tell: (measure) => ({
    subjects: (measure as { ids: string[] }).ids.map((id) => ({ id, role: 'load' })),
    data: {},
    when: null,
    basis: 'recalled',
  }),
});

const planned = (
  count: number,
  priorities: readonly number[],
  rules: readonly AnyRule[],
  more: Partial<Situation> = {},
): { chosen: string; proven: boolean; worth: number } => {
  const items = Array.from({ length: count }, (_, item) => item);
  const wishes = items.map((item) => ({ species: idOf(item), priority: priorities[item] ?? 1 }));
  const { chosen, proven } = plan(situationWith({ wishes, ...more }), libraryOf(items.map((item) => recordWith(idOf(item)))), rules);
  return {
    chosen: chosen.map(({ species }) => species[0]).join(''),
    proven,
    worth: chosen.reduce((sum, { species }) => sum + (priorities[LETTERS.indexOf(species[0] ?? '')] ?? 1), 0),
  };
};

const ring = (count: number): (readonly [number, number])[] =>
  Array.from({ length: count }, (_, item) => [item, (item + 1) % count] as const);

describe('the best set on graphs with a known answer', () => {
  it.each([
    [5, 2],
    [6, 3],
    [11, 5],
    [24, 12],
  ])('of a ring of %i every other one can stay: %i', (count, most) => {
    expect(planned(count, [], [edges(ring(count))])).toMatchObject({ proven: true, worth: most });
  });

  it('of the Petersen graph four can stay', () => {
    const outer = ring(5);
    const spokes = [0, 1, 2, 3, 4].map((item) => [item, item + 5] as const);
    const star = [0, 1, 2, 3, 4].map((item) => [item + 5, ((item + 2) % 5) + 5] as const);
    expect(planned(10, [], [edges([...outer, ...spokes, ...star])])).toMatchObject({ proven: true, worth: 4 });
  });

  it('of eight triangles one each can stay, the dearest', () => {
    const triangles = Array.from({ length: 8 }, (_, at) => [3 * at, 3 * at + 1, 3 * at + 2]).flatMap(
      ([a, b, c]) =>
        [
          [a, b],
          [b, c],
          [a, c],
        ] as (readonly [number, number])[],
    );
    const priorities = LETTERS.map((_, item) => 1 + (item % 3));
    expect(planned(24, priorities, [edges(triangles)])).toMatchObject({ proven: true, worth: 24, chosen: 'cfilorux' });
  });
});

describe('the best set under limits', () => {
  // Our own, over all subsets: A9 (40, 3), B8 (30, 2), C7 (20, 2), D9 (25, 5), E6 (60, 4), F5 (10, 1), G6 (30, 3), H4 (5, 1) in sacks of 120
  // and 12, with A-B, A-C, B-E, D-E, E-G and C-G apart: B, C, D, F and H.
  it('takes what is worth most within both', () => {
    const apart = [
      [0, 1],
      [0, 2],
      [1, 4],
      [3, 4],
      [4, 6],
      [2, 6],
    ] as const;
    const rules = [edges(apart), sack('territory', [40, 30, 20, 25, 60, 10, 30, 5], 120), sack('load', [3, 2, 2, 5, 4, 1, 3, 1], 12)];
    expect(planned(8, [9, 8, 7, 9, 6, 5, 6, 4], rules)).toEqual({ chosen: 'bcdfh', proven: true, worth: 33 });
  });

  it('equals the best of all subsets, whatever the conflicts and limits', () => {
    const size = 9;
    const numbers = (least: number, most: number): fc.Arbitrary<number[]> =>
      fc.array(fc.integer({ min: least, max: most }), { minLength: size, maxLength: size });
    fc.assert(
      fc.property(
        numbers(1, 10),
        fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 16 }),
        numbers(1, 9),
        numbers(1, 9),
        fc.integer({ min: 0, max: 45 }),
        fc.integer({ min: 0, max: 45 }),
        (priorities, pairs, weights, loads, limit, most) => {
          const joined = pairs.filter(([one, other]) => one !== other);
          let best = 0;
          for (let set = 0; set < 1 << size; set += 1) {
            const has = (item: number): boolean => (set & (1 << item)) !== 0;
            const sum = (of: readonly number[]): number => of.reduce((total, value, item) => total + (has(item) ? value : 0), 0);
            if (joined.some(([one, other]) => has(one) && has(other)) || sum(weights) > limit || sum(loads) > most) continue;
            best = Math.max(best, sum(priorities));
          }
          expect(planned(size, priorities, [edges(joined), sack('weight', weights, limit), sack('load', loads, most)])).toMatchObject({
            proven: true,
            worth: best,
          });
        },
      ),
      { numRuns: runs(150) },
    );
  });

  it('says by how much it may be beaten when it has to stop early', () => {
    const items = LETTERS.slice(0, 10).map((_, item) => item);
    const wishes = items.map((item) => ({ species: idOf(item), priority: 1 + ((item * 7) % 10), count: [1, 3] }));
    const library = libraryOf(items.map((item) => recordWith(idOf(item))));
    const rules = [
      sack(
        'weight',
        items.map((item) => 11 + ((item * 5) % 13)),
        97,
      ),
    ];
    const early = plan(situationWith({ wishes }), library, rules, 300);
    const whole = plan(situationWith({ wishes }), library, rules, 80_000);
    const worth = ({ chosen }: typeof whole): number =>
      chosen.reduce((sum, { species }) => sum + (wishes.find((wish) => wish.species === species)?.priority ?? 0), 0);
    expect(whole.proven).toBe(true);
    expect(early.proven).toBe(false);
    expect(worth(early) + early.gap).toBeGreaterThanOrEqual(worth(whole));
  });
});

describe('between sets of equal worth', () => {
  it('the larger one is taken, then the one of lower ids', () => {
    const library = libraryOf([0, 1, 2].map((item) => recordWith(idOf(item))));
    const both = [edges([[0, 1]])];
    const chosenOf = (counts: readonly (readonly [number, number])[]): string[] =>
      plan(
        situationWith({ wishes: counts.map(([least, most], item) => ({ species: idOf(item), count: [least, most] })) }),
        library,
        both,
      ).chosen.map(({ species, count }) => `${species} ${count}`);
    expect(
      chosenOf([
        [1, 1],
        [1, 1],
      ]),
    ).toEqual(['aus-primus 1']);
    expect(
      chosenOf([
        [1, 1],
        [1, 3],
      ]),
    ).toEqual(['bus-primus 3']);
  });

  it('fewer doubts about errors go before fewer warnings, unless the settings allow them', () => {
    const grumbles = (level: 'error' | 'warning', outcome: 'failed' | 'cantTell', item: number): AnyRule => ({
      ...shared,
      id: `vendor/${level}`,
      scope: 'animal',
      planning: 'option',
      measure: ({ animals }, _options, each) => {
        for (const { id, kind } of animals) if (kind.id === idOf(item)) each(id);
      },
      judge: () => ({ outcome, level, message: 'vendor/grumble.found' }),
      tell: (id) => ({ subjects: [{ id: String(id), role: 'animal' }], data: {}, when: null, basis: 'recalled' }),
    });
    const rules = [edges([[0, 1]]), grumbles('error', 'cantTell', 0), grumbles('warning', 'failed', 1)];
    expect(planned(2, [1, 1], rules)).toMatchObject({ chosen: 'b', worth: 1 });
    expect(planned(2, [1, 1], rules, { settings: { whenUncertain: 'allow' } })).toMatchObject({ chosen: 'a' });
    // Where what cannot be ruled out is excluded, even a dearer wish goes.
    expect(planned(2, [9, 1], rules, { settings: { whenUncertain: 'exclude' } })).toMatchObject({ chosen: 'b', proven: true });
    expect(planned(2, [9, 1], rules)).toMatchObject({ chosen: 'a' });
  });
});
