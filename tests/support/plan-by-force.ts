import { type AnyRule, check, type Library, rules as allRules, stockOf } from '@commensal/core';
import type { Situation } from '@commensal/schema';

/** What a set of wishes is worth: priorities, then animals. */
export interface Worth {
  readonly priority: number;
  readonly animals: number;
}

interface Choice {
  /** Number of the wish, and how many of it. */
  readonly wish: number;
  readonly count: number;
}

function* permutations<Item>(items: readonly Item[]): Generator<readonly Item[]> {
  if (items.length === 0) yield [];
  for (const [at, item] of items.entries())
    for (const rest of permutations(items.filter((_, index) => index !== at))) yield [item, ...rest];
}

function* product<Item>(lists: readonly (readonly Item[])[]): Generator<readonly Item[]> {
  const [first, ...others] = lists;
  if (first === undefined) yield [];
  else for (const item of first) for (const rest of product(others)) yield [item, ...rest];
}

/**
 * The most that any set of wishes is worth that check lets in, found by trying everything: every number of every wish, every
 * entry length, every order of batches, a gap apart. Nothing of the planner is used but what it promises: the first day, the
 * gap, kin together, scavengers together, lengths in whole millimetres at both ends and the middle of the entry range.
 */
export function worthByForce(situation: Situation, library: Library, rules: readonly AnyRule[] = allRules): Worth {
  const wishes = situation.wishes ?? [];
  const choices = wishes.map((wish, index): Choice[] => {
    const [least = 1, most = 1] = wish.count ?? [];
    return [{ wish: index, count: 0 }, ...Array.from({ length: most - least + 1 }, (_, more) => ({ wish: index, count: least + more }))];
  });
  const worthOf = (set: readonly Choice[]): Worth => ({
    priority: set.reduce((sum, { wish }) => sum + (wishes[wish]?.priority ?? 5), 0),
    animals: set.reduce((sum, { count }) => sum + count, 0),
  });
  const sets = [...product(choices)].map((set) => set.filter(({ count }) => count > 0));
  sets.sort((one, other) => worthOf(other).priority - worthOf(one).priority || worthOf(other).animals - worthOf(one).animals);
  return worthOf(sets.find((set) => canComeIn(situation, library, set, rules)) ?? []);
}

/** What one rule rules out the others need not be asked of; ammonia is the dearest to follow. */
const dearestLast = (rules: readonly AnyRule[]): readonly AnyRule[] =>
  [...rules].sort((one, other) => Number(one.id === 'nitrogen') - Number(other.id === 'nitrogen'));

function canComeIn(situation: Situation, library: Library, set: readonly Choice[], rules: readonly AnyRule[]): boolean {
  const { stock } = stockOf(situation, library);
  const inOrder = dearestLast(rules);
  const exclude = situation.settings?.whenUncertain === 'exclude';
  const lastEntry = Math.max(...stock.animals.map(({ entryDay }) => entryDay ?? Number.NEGATIVE_INFINITY), Number.NEGATIVE_INFINITY);
  const gap = situation.settings?.thresholds?.['entry-gap']?.gapDays ?? 28;
  const start = Math.max(stock.day, stock.tank.cycledDay ?? stock.day, lastEntry + gap);
  const batches = new Map<string, Choice[]>();
  for (const choice of set) {
    const { record, kinGroup } = stock.wishes[choice.wish]?.kind ?? {};
    const name = record?.introduction?.value === 'scavenger' ? 'scavengers!' : (kinGroup ?? '');
    batches.set(name, [...(batches.get(name) ?? []), choice]);
  }
  const lengths = set.map(({ wish }): (number | undefined)[] => {
    const entry = stock.wishes[wish]?.entryCm;
    return entry === undefined ? [undefined] : [...new Set([entry.low, entry.centre, entry.high].map((cm) => Math.round(cm * 10) / 10))];
  });
  const newcomers = new Set(set.map(({ wish }) => `wish${wish}`));
  for (const order of permutations([...batches.values()])) {
    for (const chosen of product(lengths)) {
      const introductions = order.map((batch, position) => ({
        date: new Date(86_400_000 * (start + position * gap)).toISOString().slice(0, 10),
        animals: batch.map((choice) => {
          const cm = chosen[set.indexOf(choice)];
          return {
            id: `wish${choice.wish}`,
            species: stock.wishes[choice.wish]?.kind.id ?? '',
            count: choice.count,
            ...(cm === undefined ? {} : { length: { value: cm, unit: 'cm' as const } }),
          };
        }),
      }));
      const tried = { ...situation, wishes: [], introductions: [...(situation.introductions ?? []), ...introductions] };
      const { stock: full } = stockOf(tried, library);
      const bad = inOrder.some((rule) =>
        check(full, [rule]).findings.some(
          ({ outcome, level, accepted, subjects }) =>
            level === 'error' &&
            accepted === undefined &&
            (outcome === 'failed' || exclude) &&
            subjects.some(({ id }) => newcomers.has(id)),
        ),
      );
      if (!bad) return true;
    }
  }
  return false;
}
