/** What a rule on pairs says of longer animals and of those that come earlier: planning leans on it. */
import { type AnyRule, check, rules, stockOf } from '@commensal/core';
import type { Finding, Introduction, Newcomer, Situation } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayAfter, libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { rankOf } from '../support/ranks.js';
import { runs } from '../support/runs.js';

const SAYING = rules.filter(({ longer }) => longer !== undefined);

/** Two newcomers of known length on days of their own, with nothing that parts them. */
const pairs = scenes({ residents: 0, batches: 2 })
  .map((scene) => {
    const animals = (scene.situation.introductions ?? []).map(({ animals: [first] }) => first).filter((one) => one?.length !== undefined);
    return { ...scene, animals: animals.map((one) => ({ ...one, count: 1 }) as Newcomer) };
  })
  .filter(({ animals }) => animals.length === 2);

type Pair = Scene & { readonly animals: readonly Newcomer[] };

const situationOf = ({ situation, animals }: Pair, days: readonly number[]): Situation => ({
  ...situation,
  events: [],
  introductions: animals.map((animal, at): Introduction => ({ date: dayAfter(days[at] ?? 0), animals: [animal] })),
});

/** What the rule finds of the first beside the second, by the part that the first plays. */
function foundBy(rule: AnyRule, pair: Pair, days: readonly number[]): { asWorse: Finding | undefined; asBetter: Finding | undefined } {
  const { findings } = check(stockOf(situationOf(pair, days), libraryFor(pair)).stock, [rule]);
  const [first] = pair.animals;
  const inRole = (role: string | undefined): Finding | undefined =>
    findings.find(({ subjects }) => subjects.length === 2 && subjects.some((one) => one.id === first?.id && one.role === role));
  return { asWorse: inRole(rule.longer?.worse), asBetter: inRole(rule.longer?.better) };
}

/** Failed errors exclude; what only warns does not hang on it. */
const bad = (finding: Finding | undefined): number => (finding === undefined ? 0 : rankOf(finding));
const excludes = (finding: Finding | undefined): boolean => finding?.outcome === 'failed' && finding.level === 'error';

describe.each(SAYING.map((rule) => [rule.id, rule] as const))('%s', (_, rule) => {
  it('a longer animal is never safer to others, nor less safe from them', () => {
    let [found, changed] = [0, 0];
    fc.assert(
      fc.property(pairs, fc.constantFrom(1.05, 1.5, 3), fc.nat(120), fc.nat(120), (pair, times, one, other) => {
        const longer = pair.animals.map((animal, at) =>
          at === 0 ? { ...animal, length: { value: (animal.length?.value ?? 0) * times, unit: 'cm' as const } } : animal,
        );
        const [before, after] = [foundBy(rule, pair, [one, other]), foundBy(rule, { ...pair, animals: longer }, [one, other])];
        if (excludes(before.asWorse)) expect(excludes(after.asWorse)).toBe(true);
        if (excludes(after.asBetter)) expect(excludes(before.asBetter)).toBe(true);
        found += bad(before.asWorse) + bad(before.asBetter);
        changed += excludes(before.asWorse) === excludes(after.asWorse) && excludes(before.asBetter) === excludes(after.asBetter) ? 0 : 1;
      }),
      { numRuns: runs(3000) },
    );
    expect(found).toBeGreaterThan(0);
    expect(changed).toBeGreaterThan(0);
  });

  it('an animal that comes earlier is never safer to others, nor less safe from them', () => {
    let found = 0;
    fc.assert(
      fc.property(pairs, fc.nat(200), fc.nat(200), fc.nat(200), (pair, one, other, earlier) => {
        const [before, after] = [foundBy(rule, pair, [one + earlier, other]), foundBy(rule, pair, [one, other])];
        if (excludes(before.asWorse)) expect(excludes(after.asWorse)).toBe(true);
        if (excludes(after.asBetter)) expect(excludes(before.asBetter)).toBe(true);
        found += bad(before.asWorse) + bad(before.asBetter);
      }),
      { numRuns: runs(3000) },
    );
    expect(found).toBeGreaterThan(0);
  });
});

it('some rules say so', () => {
  expect(SAYING.map(({ id }) => id)).toEqual(['gape', 'appetite']);
});
