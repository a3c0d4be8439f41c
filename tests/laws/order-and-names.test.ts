import { check, libraryOf, plan, rules, stockOf } from '@commensal/core';
import type { Finding, Situation } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';
import { asSet, renamed } from '../support/same-findings.js';

/** The same scene with every list and every object in another order; `chance` gives numbers from 0 to below 1. */
function shuffled<Value>(value: Value, chance: () => number, keepLists: boolean): Value {
  if (typeof value !== 'object' || value === null) return value;
  const mixed = <Item>(items: readonly Item[]): Item[] =>
    items
      .map((item) => ({ item, at: chance() }))
      .sort((one, other) => one.at - other.at)
      .map(({ item }) => item);
  if (Array.isArray(value)) {
    const inner = value.map((item) => shuffled(item, chance, keepLists));
    return (keepLists || typeof value[0] === 'number' ? inner : mixed(inner)) as Value;
  }
  return Object.fromEntries(mixed(Object.entries(value)).map(([key, item]) => [key, shuffled(item, chance, keepLists)])) as Value;
}

const chances = (seed: number): (() => number) => {
  let state = seed;
  return () => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return state / 2147483648;
  };
};

const findingsOf = (scene: Scene, situation: Situation = scene.situation): readonly Finding[] =>
  check(stockOf(situation, libraryFor(scene)).stock, rules).findings;

describe('order', () => {
  it('the order of animals, batches and keys does not matter to a check', () => {
    fc.assert(
      fc.property(scenes({ wishes: 2 }), fc.nat(), (scene, seed) => {
        const chance = chances(seed);
        const situation = shuffled(scene.situation, chance, false);
        const library = libraryFor({ ...scene, invented: scene.invented.map((record) => shuffled(record, chance, true)).reverse() });
        expect(JSON.stringify(check(stockOf(situation, library).stock, rules))).toBe(
          JSON.stringify(check(stockOf(scene.situation, libraryFor(scene)).stock, rules)),
        );
      }),
      { numRuns: runs(1000) },
    );
  });

  it('the order of animals, wishes and keys does not matter to a plan, save that what is chosen and left out follows the wishes', () => {
    fc.assert(
      fc.property(scenes({ wishes: 3, residents: 1, batches: 1 }), fc.nat(), (scene, seed) => {
        const sorted = (list: readonly unknown[]): string[] => list.map((one) => JSON.stringify(one)).sort();
        const inOrder = ({ chosen, leftOut, alternatives, ...rest }: ReturnType<typeof plan>): unknown => ({
          ...rest,
          chosen: sorted(chosen),
          leftOut: sorted(leftOut),
          alternatives: alternatives.map((other) => ({ ...other, chosen: sorted(other.chosen) })),
        });
        const library = libraryFor(scene);
        expect(inOrder(plan(shuffled(scene.situation, chances(seed), false), library))).toEqual(inOrder(plan(scene.situation, library)));
      }),
      { numRuns: runs(1000) },
    );
  });

  it('the order of the rules does not matter to the findings', () => {
    fc.assert(
      fc.property(scenes(), (scene) => {
        const { stock } = stockOf(scene.situation, libraryFor(scene));
        expect(check(stock, [...rules].reverse()).findings).toEqual(check(stock, rules).findings);
      }),
      { numRuns: runs(1000) },
    );
  });

  it('records that nobody in the situation is of do not matter', () => {
    fc.assert(
      fc.property(scenes(), (scene) => {
        const library = libraryFor(scene);
        const named = new Set(JSON.stringify(scene.situation).match(/[a-z]+-[a-z]+/g));
        const fewer = libraryOf(
          [...library.records.values()].filter(({ id }) => named.has(id)),
          library.standIns,
        );
        expect(check(stockOf(scene.situation, fewer).stock, rules)).toEqual(check(stockOf(scene.situation, library).stock, rules));
      }),
      { numRuns: runs(1000) },
    );
  });
});

describe('names', () => {
  it('ids and names of animals do not matter, save that findings use them', () => {
    let found = 0;
    fc.assert(
      fc.property(scenes(), fc.shuffledSubarray(['a', 'b', 'c', 'd', 'e', 'f', 'g'], { minLength: 7 }), (scene, letters) => {
        const ids = ['r0', 'r1', 'r2', 'n0a', 'n0b', 'n1a', 'n1b'];
        const to = (id: string): string => letters[ids.indexOf(id)] ?? id;
        const back = (id: string): string => ids[letters.indexOf(id)] ?? id;
        const situation = renamed(scene.situation, to);
        for (const one of situation.residents ?? []) one.name = 'Nemesis';
        // Which of equals a claim, a fight or a rule over the tank is told of goes by their ids: compare who they are, not what they are called.
        const kindOf = new Map(stockOf(scene.situation, libraryFor(scene)).stock.animals.map(({ id, kind }) => [id, kind.id]));
        const whoIs =
          (name: (id: string) => string) =>
          (id: string): string =>
            kindOf.get(name(id)) ?? name(id);
        const before = findingsOf(scene);
        const after = findingsOf(scene, situation);
        const rocky = ({ rule }: Finding): boolean => ['rock-crowding', 'dominance', 'rivalry', 'niche'].includes(rule);
        expect(
          asSet(
            after.filter((finding) => !rocky(finding)),
            back,
          ),
        ).toEqual(asSet(before.filter((finding) => !rocky(finding))));
        expect(asSet(after.filter(rocky), whoIs(back))).toEqual(
          asSet(
            before.filter(rocky),
            whoIs((id) => id),
          ),
        );
        found += before.length;
      }),
      { numRuns: runs(1000) },
    );
    expect(found).toBeGreaterThan(0);
  });

  it('what two animals mean to each other does not depend on who is named first', () => {
    let pairs = 0;
    fc.assert(
      fc.property(scenes({ residents: 2, batches: 0 }), (scene) => {
        const residents = scene.situation.residents ?? [];
        const swapped = { ...scene.situation, residents: [...residents].reverse() };
        const found = findingsOf(scene);
        expect(asSet(findingsOf(scene, swapped))).toEqual(asSet(found));
        // And with the ids changed over, so that the alphabet does not decide either.
        const other = (id: string): string => (id === 'r0' ? 'r1' : id === 'r1' ? 'r0' : id);
        const outcomes = (list: readonly Finding[], name: (id: string) => string): string[] =>
          list
            .map(({ rule, outcome, level, message, subjects }) =>
              [rule, outcome, level, message, ...subjects.map(({ id, role }) => role + name(id)).sort()].join(),
            )
            .sort();
        const pairwise = (list: readonly Finding[]): readonly Finding[] =>
          list.filter(({ rule }) => rule === 'gape' || rule === 'water' || rule === 'family-batch');
        expect(outcomes(pairwise(findingsOf(scene, renamed(scene.situation, other))), other)).toEqual(
          outcomes(pairwise(found), (id) => id),
        );
        pairs += residents.length === 2 ? 1 : 0;
      }),
      { numRuns: runs(1000) },
    );
    expect(pairs).toBeGreaterThan(0);
  });
});
