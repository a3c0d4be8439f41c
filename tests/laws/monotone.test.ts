import { type AnyRule, check, type Effect, rules, stockOf } from '@commensal/core';
import type { Introduction, Situation } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayAfter, libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { gravestOf, worstOf } from '../support/ranks.js';
import { runs } from '../support/runs.js';

type Claim = keyof AnyRule['monotone'];
type More = (situation: Situation, by: number) => Situation | undefined;

interface Bad {
  /** The worst finding, a failure before any doubt. */
  readonly worst: number;
  /** The worst by level first. */
  readonly gravest: number;
}

/** What each rule finds, by its id. */
function badByRule(scene: Scene, situation: Situation): ReadonlyMap<string, Bad> {
  const { findings } = check(stockOf(situation, libraryFor(scene)).stock, rules);
  return new Map(
    rules.map(({ id }) => {
      const its = findings.filter(({ rule }) => rule === id);
      return [id, { worst: worstOf(its), gravest: gravestOf(its) }];
    }),
  );
}

const times = <Reading extends { value?: number; low?: number; high?: number }>(reading: Reading, by: number): Reading => ({
  ...reading,
  ...(reading.value === undefined ? {} : { value: reading.value * by }),
});

const moreWater: More = (situation, by) => ({ ...situation, tank: { ...situation.tank, water: times(situation.tank.water, by) } });

const moreRock: More = (situation, by) => {
  const { rock } = situation.tank;
  if (rock === undefined) return undefined;
  const { mass, envelope } = rock;
  return {
    ...situation,
    tank: {
      ...situation.tank,
      rock: {
        ...rock,
        ...(mass === undefined ? {} : { mass: times(mass, by) }),
        ...(envelope === undefined ? {} : { envelope: times(envelope, by) }),
      },
    },
  };
};

/** Takes one line out, or one animal of a line. */
const fewerAnimals: More = (situation, by) => {
  const lines = [
    ...(situation.residents ?? []).map(({ id, count = 1 }) => ({ id, count })),
    ...(situation.introductions ?? []).flatMap(({ animals }) =>
      animals.map(({ id, species, count = 1 }) => ({ id: id ?? species, count })),
    ),
  ];
  const line = lines[Math.floor(by * 1000) % Math.max(1, lines.length)];
  if (line === undefined) return undefined;
  const without = <Animal extends { id?: string; count?: number }>(animals: readonly Animal[]): Animal[] =>
    animals.flatMap((animal) =>
      animal.id !== line.id ? [animal] : line.count === 1 || by > 2 ? [] : [{ ...animal, count: line.count - 1 }],
    );
  return {
    ...situation,
    residents: without(situation.residents ?? []),
    introductions: (situation.introductions ?? [])
      .map((batch) => ({ ...batch, animals: without(batch.animals) }))
      .filter(({ animals }) => animals.length > 0),
    events: (situation.events ?? []).filter((event) => event.kind !== 'animal-removed' || event.animal !== line.id),
  };
};

/** One batch goes in later. */
const delay: More = (situation, by) => {
  const batches = situation.introductions ?? [];
  const at = Math.floor(by * 1000) % Math.max(1, batches.length);
  if (batches.length === 0) return undefined;
  const later = (batch: Introduction): Introduction => ({ ...batch, date: dayAfter(daysOf(batch.date) + Math.ceil(by * 30)) });
  return { ...situation, introductions: batches.map((batch, index) => (index === at ? later(batch) : batch)) };
};

const daysOf = (date: string): number => Math.round((Date.parse(date) - Date.parse('2027-03-01')) / 86_400_000);

const CHANGES: Readonly<Record<Claim, More>> = { water: moreWater, rock: moreRock, fewerAnimals, delay };

/** What a rule may come to after a change, as it claims. */
const ALLOWED: Readonly<Record<Exclude<Effect, 'either'>, (before: Bad, after: Bad) => boolean>> = {
  better: (before, after) => isNoWorse(after, before),
  worse: (before, after) => isNoWorse(before, after),
  neither: (before, after) => after.worst === before.worst,
};

/** No worse in one of the two orders: a doubt about something grave may give way to a failure that is milder. */
const isNoWorse = (one: Bad, other: Bad): boolean => one.worst <= other.worst || one.gravest <= other.gravest;

const claims = (Object.keys(CHANGES) as Claim[]).flatMap((claim) =>
  rules.flatMap((rule) => {
    const effect = rule.monotone[claim];
    return effect === 'either' ? [] : [{ name: `${rule.id}: ${claim} makes it ${effect}`, rule, claim, effect }];
  }),
);

/** How often a rule found anything, so that a claim about nothing is noticed. */
const found = new Map<string, number>();

/** Where a change that is said to help did. */
const differs = new Set<string>();

describe('what rules claim of more and less', () => {
  it('every rule claims something', () => {
    expect(new Set(claims.map(({ rule }) => rule.id)).size).toBe(rules.length);
  });

  it.each(Object.keys(CHANGES) as Claim[])('of %s: what each rule says of it', (claim) => {
    const claimed = claims.filter((one) => one.claim === claim);
    expect(claimed.length).toBeGreaterThan(0);
    fc.assert(
      fc.property(scenes({ residents: 3, batches: 3 }), fc.constantFrom(1.01, 1.2, 1.5, 2, 3.7, 8), (scene, by) => {
        const changed = CHANGES[claim](scene.situation, by);
        if (changed === undefined) return;
        const before = badByRule(scene, scene.situation);
        const after = badByRule(scene, changed);
        for (const { name, rule, effect } of claimed) {
          const [was, is] = [before.get(rule.id) as Bad, after.get(rule.id) as Bad];
          found.set(rule.id, (found.get(rule.id) ?? 0) + Math.max(was.worst, is.worst));
          if (effect === 'better' && is.worst < was.worst) differs.add(`${rule.id} ${claim}`);
          expect(ALLOWED[effect](was, is), `${name}: ${was.worst} before, ${is.worst} after`).toBe(true);
        }
      }),
      { numRuns: runs(1500) },
    );
  });

  it('each of them had something to find', () => {
    for (const { id } of rules) expect(found.get(id), id).toBeGreaterThan(0);
  });

  it('more rock, more water and fewer animals do make a difference where they are said to', () => {
    expect([...differs]).toEqual(expect.arrayContaining(['rock-crowding rock', 'swimming-room water', 'gape fewerAnimals']));
  });
});
