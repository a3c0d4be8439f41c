import { type AnyRule, type Library, plan, type Planned, rules } from '@commensal/core';
import type { Situation } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrange } from '../../packages/core/src/plan/arrange.js';
import { groundOf } from '../../packages/core/src/plan/ground.js';
import type { Pick } from '../../packages/core/src/plan/line.js';
import { crowdedScenes, libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { type Worth, worthByForce } from '../support/plan-by-force.js';
import { runs } from '../support/runs.js';

const uncertain = fc.constantFrom('avoid' as const, 'avoid' as const, 'allow' as const, 'exclude' as const);

/** Half of them where anything may be missing, half where order, lengths and rock decide. */
const planning = (wishes: number): fc.Arbitrary<Scene> =>
  fc.oneof(
    fc.tuple(scenes({ residents: 2, batches: 1, wishes }), uncertain).map(([scene, whenUncertain]) => ({
      ...scene,
      situation: { ...scene.situation, settings: { ...scene.situation.settings, whenUncertain } },
    })),
    crowdedScenes(wishes),
  );

/** A batch that waits longer than its gap, for the tank or its nitrifiers, comes in on a day that is not tried by force. */
const waits = ({ introductions }: Planned): boolean =>
  introductions.some(({ reasons }) => reasons.some(({ message }) => message === 'order.nitrifiers' || message === 'order.oldEnough'));

const worthOf = (
  situation: Situation,
  library: Library,
  by: readonly AnyRule[] = rules,
): Worth & { proven: boolean; gap: number; waits: boolean } => {
  const planned = plan(situation, library, by);
  const { chosen, leftOut, proven, gap } = planned;
  const wishes = situation.wishes ?? [];
  // Wishes are told apart by species and number; two of one kind may differ in priority, which the order of wishes settles.
  const granted: number[] = [];
  for (const { species, count } of chosen) {
    const at = wishes.findIndex(
      (wish, index) =>
        !granted.includes(index) && wish.species === species && (wish.count?.[0] ?? 1) <= count && count <= (wish.count?.[1] ?? 1),
    );
    granted.push(at);
  }
  expect(chosen.length + leftOut.length).toBe(wishes.length);
  return {
    priority: granted.reduce((sum, at) => sum + (wishes[at]?.priority ?? 5), 0),
    animals: chosen.reduce((sum, { count }) => sum + count, 0),
    proven,
    gap,
    waits: waits(planned),
  };
};

const NOTHING: Worth = { priority: 0, animals: 0 };

/** How many plans were proven, and how many not: of what hangs on the whole of a set not every way may be tried, and that is said. */
let [proofs, openEnds] = [0, 0];

const isMore = (one: Worth, other: Worth): boolean =>
  one.priority > other.priority || (one.priority === other.priority && one.animals > other.animals);

/** What is said to be proven is the best, and what is not falls short by no more than is said. */
function expectWorth(situation: Situation, library: Library, { priority, animals }: Worth): void {
  const { proven, gap, waits: isLater, ...worth } = worthOf(situation, library);
  if (proven && isLater && isMore(worth, { priority, animals })) return;
  if (proven) expect(worth).toEqual({ priority, animals });
  else {
    expect(worth.priority).toBeLessThanOrEqual(priority);
    expect(worth.priority + gap).toBeGreaterThanOrEqual(priority);
  }
  if (proven) proofs += 1;
  else if (situation.settings?.whenUncertain !== 'exclude') openEnds += 1;
}

/** Open ends stay rare where doubts do not exclude. */
function expectProofs(): void {
  expect(proofs).toBeGreaterThan(0);
  expect(openEnds / (proofs + openEnds)).toBeLessThan(0.05);
  [proofs, openEnds] = [0, 0];
}

/** One wish a species, so that what is granted can be told. */
const distinct = (situation: Situation): Situation => ({
  ...situation,
  wishes: (situation.wishes ?? []).filter(({ species }, index, all) => all.findIndex((wish) => wish.species === species) === index),
});

describe('the best set', () => {
  it.each([
    [3, 1000],
    [4, 25],
  ])('of up to %i wishes is worth as much as trying every set, length and order finds, by check alone', (wishes, times) => {
    let leftOut = 0;
    fc.assert(
      fc.property(planning(wishes), (drawn) => {
        const situation = distinct(drawn.situation);
        const library = libraryFor(drawn);
        const expected = worthByForce(situation, library) ?? NOTHING;
        expectWorth(situation, library, expected);
        if (expected.priority < (situation.wishes ?? []).reduce((sum, { priority = 5 }) => sum + priority, 0)) leftOut += 1;
      }),
      { numRuns: runs(times) },
    );
    expect(leftOut).toBeGreaterThan(0);
    expectProofs();
  });

  it('is worth as much as arranging every set of up to six wishes', () => {
    fc.assert(
      fc.property(planning(6), (drawn) => {
        const situation = distinct(drawn.situation);
        const library = libraryFor(drawn);
        const ground = groundOf(situation, library, rules);
        let best: Worth = { priority: 0, animals: 0 };
        const tryAll = (at: number, picks: readonly Pick[]): void => {
          const line = ground.lines[at];
          if (line === undefined) {
            const worth = {
              priority: picks.reduce((sum, pick) => sum + pick.line.wish.priority, 0),
              animals: picks.reduce((sum, pick) => sum + pick.count, 0),
            };
            const better = worth.priority > best.priority || (worth.priority === best.priority && worth.animals > best.animals);
            if (better && arrange(ground, picks).excluding.length === 0) best = worth;
            return;
          }
          for (let count = line.wish.least; count <= line.wish.most; count += 1) tryAll(at + 1, [...picks, { line, count }]);
          tryAll(at + 1, picks);
        };
        tryAll(0, []);
        expectWorth(situation, library, best);
      }),
      { numRuns: runs(60) },
    );
    expectProofs();
  });

  it('holds what has to be in, is worth as much under strict priorities, and names the fewest that cannot be in together', () => {
    let [strict, impossible] = [0, 0];
    const asked = fc.record({
      musts: fc.array(fc.boolean(), { minLength: 3, maxLength: 3 }),
      isStrict: fc.boolean(),
      isWatched: fc.boolean(),
    });
    fc.assert(
      fc.property(planning(3), asked, (drawn, { musts, isStrict, isWatched }) => {
        const bare = distinct(drawn.situation);
        const situation: Situation = {
          ...bare,
          tank: { ...bare.tank, ...(isWatched ? { holdingTank: { lots: 1 } } : {}) },
          wishes: (bare.wishes ?? []).map((wish, at) => ({ ...wish, ...(musts[at] === true ? { must: true } : {}) })),
          settings: { ...bare.settings, ...(isStrict ? { priorities: 'strict' } : {}) },
        };
        const library = libraryFor(drawn);
        const expected = worthByForce(situation, library);
        const planned = plan(situation, library);
        strict += isStrict ? 1 : 0;
        if (expected === undefined) {
          if (planned.impossible === undefined && waits(planned)) return;
          expect(planned.chosen).toEqual([]);
          expect(planned.impossible?.because).not.toEqual([]);
          // The fewest: without any one of them the others can be in, whatever else is left out.
          const named = planned.impossible?.species ?? [];
          const only = (species: readonly string[]): Situation => ({
            ...situation,
            wishes: (situation.wishes ?? []).filter((wish) => species.includes(wish.species)),
          });
          expect(worthByForce(only(named), library)).toBeUndefined();
          if (planned.impossible?.minimal === true)
            for (const one of named) expect(worthByForce(only(named.filter((other) => other !== one)), library), one).toBeDefined();
          impossible += 1;
          return;
        }
        if (planned.proven && !(waits(planned) && (isStrict || isMore(planned.worth, expected)))) expect(planned.worth).toEqual(expected);
        for (const { species, must } of situation.wishes ?? [])
          if (must === true && planned.impossible === undefined) expect(planned.chosen.map((one) => one.species)).toContain(species);
        expect(planned.proven ? planned.impossible : undefined).toBeUndefined();
      }),
      { numRuns: runs(300) },
    );
    expect(strict).toBeGreaterThan(0);
    expect(impossible).toBeGreaterThan(0);
  });

  it('more wishes never lower its worth', () => {
    fc.assert(
      fc.property(planning(3), (drawn) => {
        const situation = distinct(drawn.situation);
        const library = libraryFor(drawn);
        const fewer = { ...situation, wishes: (situation.wishes ?? []).slice(0, -1) };
        const [more, less] = [worthOf(situation, library), worthOf(fewer, library)];
        expect(more.priority).toBeGreaterThanOrEqual(less.priority);
        if (more.priority === less.priority) expect(more.animals).toBeGreaterThanOrEqual(less.animals);
      }),
      { numRuns: runs(1000) },
    );
  });

  /** What makes it harder, and the rules by which it cannot help: a larger resident may take over the rule of a tank, and feeds what turns the ammonia over. */
  const HARDER: readonly [string, (situation: Situation) => Situation | undefined, readonly AnyRule[]][] = [
    [
      'less rock',
      (situation) => {
        const { rock, ...tank } = situation.tank;
        const less = <Reading extends { value?: number }>(reading: Reading | undefined): Reading | undefined =>
          reading?.value === undefined ? reading : { ...reading, value: reading.value * 0.4 };
        return rock === undefined
          ? undefined
          : {
              ...situation,
              tank: { ...tank, rock: JSON.parse(JSON.stringify({ ...rock, mass: less(rock.mass), envelope: less(rock.envelope) })) },
            };
      },
      rules,
    ],
    [
      'less water',
      (situation) => ({ ...situation, tank: { ...situation.tank, water: { value: (situation.tank.water.value ?? 0) * 0.05, unit: 'L' } } }),
      rules,
    ],
    [
      'a keeper of less experience',
      (situation) => (situation.keeper === undefined ? undefined : { ...situation, keeper: { ...situation.keeper, careTier: 1 } }),
      rules,
    ],
    [
      'one more resident',
      (situation) => ({
        ...situation,
        residents: [...(situation.residents ?? []), { id: 'more', species: 'pterois-volitans', length: { value: 25, unit: 'cm' } }],
      }),
      rules.filter(({ id }) => id !== 'dominance' && id !== 'nitrogen'),
    ],
  ];

  it('a further constraint never raises it', () => {
    const lower = new Set<string>();
    fc.assert(
      fc.property(planning(3), fc.constantFrom(...HARDER), (drawn, [name, harder, lasting]) => {
        // Where doubts exclude, a doubt about an error can turn into a failure that only warns, which excludes nothing.
        if (drawn.situation.settings?.whenUncertain === 'exclude') return;
        const situation = distinct(drawn.situation);
        const constrained = harder(situation);
        if (constrained === undefined) return;
        const library = libraryFor(drawn);
        const [before, after] = [worthOf(situation, library, lasting), worthOf(constrained, library, lasting)];
        expect(after.priority, name).toBeLessThanOrEqual(before.priority);
        if (after.priority === before.priority) expect(after.animals).toBeLessThanOrEqual(before.animals);
        if (after.priority < before.priority) lower.add(name);
      }),
      { numRuns: runs(1000) },
    );
    expect([...lower].sort()).toEqual(HARDER.map(([name]) => name).sort());
  });
});
