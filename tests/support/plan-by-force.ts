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
 * The most that any set of wishes is worth that check lets in and that holds what has to be in, found by trying everything: every number of every wish, every
 * entry length, every order of batches, a gap apart. Nothing of the planner is used but what it promises: the first day, the
 * gap, kin together, scavengers together, lengths in whole millimetres at both ends and the middle of the entry range.
 */
export function worthByForce(situation: Situation, library: Library, rules: readonly AnyRule[] = allRules): Worth | undefined {
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
  const isStrict = situation.settings?.priorities === 'strict';
  const priorities = [...new Set(wishes.map(({ priority = 5 }) => priority))].sort((one, other) => other - one);
  /** How many of each priority, where one of a higher one outweighs all below it; else their sum. Then the animals. */
  const rankOf = (set: readonly Choice[]): number[] => [
    ...(isStrict
      ? priorities.map((priority) => set.filter(({ wish }) => (wishes[wish]?.priority ?? 5) === priority).length)
      : [worthOf(set).priority]),
    worthOf(set).animals,
  ];
  const byRank = (one: readonly Choice[], other: readonly Choice[]): number => {
    const [its, others] = [rankOf(one), rankOf(other)];
    return its.map((value, at) => (others[at] ?? 0) - value).find((difference) => difference !== 0) ?? 0;
  };
  sets.sort(byRank);
  const hasMusts = (set: readonly Choice[]): boolean =>
    wishes.every(({ must }, wish) => must !== true || set.some((one) => one.wish === wish));
  const best = sets.filter(hasMusts).find((set) => canComeIn(situation, library, set, rules));
  return best === undefined ? undefined : worthOf(best);
}

/** What one rule rules out the others need not be asked of; ammonia is the dearest to follow. */
const dearestLast = (rules: readonly AnyRule[]): readonly AnyRule[] =>
  [...rules].sort((one, other) => Number(one.id === 'nitrogen') - Number(other.id === 'nitrogen'));

function canComeIn(situation: Situation, library: Library, set: readonly Choice[], rules: readonly AnyRule[]): boolean {
  const { stock } = stockOf(situation, library);
  const inOrder = dearestLast(rules);
  const exclude = situation.settings?.whenUncertain === 'exclude';
  const lastEntry = Math.max(...stock.animals.map(({ entryDay }) => entryDay ?? Number.NEGATIVE_INFINITY), Number.NEGATIVE_INFINITY);
  const customary = situation.settings?.thresholds?.['entry-gap']?.gapDays ?? 28;
  const { lots } = situation.tank.holdingTank ?? {};
  const watches =
    lots !== undefined && rules.some(({ id }) => id === 'quarantine') && situation.settings?.off?.includes('quarantine') !== true;
  const watch = watches ? (situation.settings?.thresholds?.quarantine?.watchDays ?? 30) : 0;
  const gap = watches ? Math.max(customary, Math.ceil(watch / lots)) : customary;
  const start = Math.max(stock.day, stock.tank.cycledDay ?? stock.day, lastEntry + gap, stock.settings.notBefore ?? stock.day);
  const isFish = ({ wish }: Choice): boolean => stock.wishes[wish]?.kind.form === 'fish';
  const anyFish = stock.wishes.some(({ kind }) => kind.form === 'fish');
  const watchedFrom = watches && anyFish ? Math.ceil(Math.max(0, stock.day + watch - start) / Math.max(1, gap)) : 0;
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
  const scavengers = batches.get('scavengers!');
  for (const order of permutations([...batches.values()])) {
    // What is watched waits for its day; scavengers that are not go in at once.
    const isAtOnce = order[0] !== undefined && order[0] === scavengers && !scavengers.some(isFish);
    const waits = set.some(isFish) ? watchedFrom : 0;
    const positionOf = (index: number): number => (isAtOnce && waits > 0 ? (index === 0 ? 0 : waits + index - 1) : waits + index);
    for (const chosen of product(lengths)) {
      const introductions = order.map((batch, index) => ({
        date: new Date(86_400_000 * (start + positionOf(index) * gap)).toISOString().slice(0, 10),
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
