import type { Finding } from '@commensal/schema';
import type { Checked } from '../check/check.js';
import type { StockAnimal } from '../stock/stock.js';
import { type Batch, batchesOf, costBefore } from './batches.js';
import { anyOrder, bySwaps, type Meets } from './any-order.js';
import { type BestOrder, EXACT_UP_TO, orderBy, type Prices, pricesOf } from './best-order.js';
import { capacityRules, checkWith, excludes, findingsWith, type Ground, meetingOf } from './ground.js';
import { type LengthChoices, type Lengths, lengthsByDanger, lengthsByRoom } from './lengths.js';
import { newcomerFrom, type Pick } from './line.js';

/** A set of picks with lengths and days, and what check says of it. */
export interface Arrangement {
  readonly picks: readonly Pick[];
  readonly batches: readonly { readonly batch: Batch; readonly day: number; readonly animals: readonly StockAnimal[] }[];
  readonly newcomers: readonly StockAnimal[];
  readonly checked: Checked;
  /** Findings that rule the set out; empty where it works. */
  readonly excluding: readonly Finding[];
  /** Doubts about errors, then warnings: what sets of equal value are ranked by. */
  readonly doubts: number;
  readonly warnings: number;
  /** No cheaper order exists; where the set does not work, no lengths and order exist with which it would. */
  readonly exact: boolean;
}

/**
 * The best way to bring a set in: lengths and order of entry with the fewest findings that rule it out, then the fewest
 * doubts, then the fewest warnings. Where there is none that works, the least bad one, so that its findings can be told.
 */
export function arrange(ground: Ground, picks: readonly Pick[]): Arrangement {
  const batches = batchesOf(ground, picks);
  const prices = pricesOf(batches.length, (before, after) => costBefore(batches[before] as Batch, batches[after] as Batch));
  const set: PickedSet = { ground, picks, batches, prices };
  const { best: byDanger, roomLacks } = bestOf(set, lengthsByDanger(ground, picks), false);
  if (byDanger.excluding.length === 0 || !roomLacks) return byDanger;
  const { best: byRoom } = bestOf(set, lengthsByRoom(ground, picks), true);
  return { ...(isBetter(byRoom, byDanger) ? byRoom : byDanger), exact: byRoom.exact };
}

interface PickedSet {
  readonly ground: Ground;
  readonly picks: readonly Pick[];
  readonly batches: readonly Batch[];
  readonly prices: Prices;
}

/** All that rules it out are sums, which are smaller where what counts most comes in small or late. */
function hangsOnRoom(ground: Ground, { excluding }: Arrangement): boolean {
  const ids = new Set(capacityRules(ground).map((rule) => rule.id));
  return excluding.every((finding) => ids.has(finding.rule));
}

/** The best of some lengths; `roomLacks` where one of them fails by nothing but sums. */
function bestOf(set: PickedSet, { choices, all }: LengthChoices, forRoom: boolean): { best: Arrangement; roomLacks: boolean } {
  let best: Arrangement | undefined;
  let exact = all;
  let roomLacks = false;
  for (const lengths of choices) {
    const arrangement = arrangeWith(set, lengths, forRoom);
    exact &&= arrangement.exact;
    roomLacks ||= hangsOnRoom(set.ground, arrangement);
    if (best === undefined || isBetter(arrangement, best)) best = arrangement;
    if (best.excluding.length + best.doubts + best.warnings === 0) break;
  }
  const found = best as Arrangement;
  return { best: found.excluding.length === 0 ? found : { ...found, exact }, roomLacks };
}

const isBetter = (one: Arrangement, other: Arrangement): boolean =>
  one.excluding.length !== other.excluding.length
    ? one.excluding.length < other.excluding.length
    : one.doubts !== other.doubts
      ? one.doubts < other.doubts
      : one.warnings < other.warnings;

function arrangeWith({ ground, picks, batches, prices }: PickedSet, lengths: Lengths, forRoom: boolean): Arrangement {
  const dayAt = (position: number): number => ground.startDay + position * ground.gapDays;
  const animalsOf = (batch: Batch, day: number): StockAnimal[] =>
    batch.picks.map((pick) => newcomerFrom(pick, day, lengths.get(pick.line.id)));
  const inOrder = (order: readonly number[]): StockAnimal[] =>
    order.flatMap((item, position) => animalsOf(batches[item] as Batch, dayAt(position)));

  const meets = meetingTable(ground, batches.length, (item, position) => animalsOf(batches[item] as Batch, dayAt(position)));
  const works = forRoom ? (order: readonly number[]): boolean => hasRoom(ground, inOrder(order)) : undefined;
  const fitting = fittingOrder(prices, meets, works);
  const order = fitting.order ?? orderBy(prices, () => true).order ?? [];

  const placed = order.map((item, position) => {
    const batch = batches[item] as Batch;
    const day = dayAt(position);
    return { batch, day, animals: animalsOf(batch, day) };
  });
  const newcomers = placed.flatMap((entry) => entry.animals);
  const checked = checkWith(ground, newcomers);
  const ids = new Set(newcomers.map((animal) => animal.id));
  const open = checked.findings.filter((finding) => finding.accepted === undefined);
  return {
    picks,
    batches: placed,
    newcomers,
    checked,
    excluding: open.filter((finding) => excludes(ground, finding, ids)),
    doubts:
      ground.stock.settings.whenUncertain === 'allow'
        ? 0
        : open.filter((finding) => finding.outcome === 'cantTell' && finding.level === 'error').length,
    warnings: open.filter((finding) => finding.outcome === 'failed' && finding.level === 'warning').length,
    exact: fitting.exact,
  };
}

function hasRoom(ground: Ground, newcomers: readonly StockAnimal[]): boolean {
  const ids = new Set(newcomers.map((animal) => animal.id));
  return !findingsWith(ground, newcomers, capacityRules(ground)).some((finding) => excludes(ground, finding, ids));
}

/**
 * The cheapest order in which no two batches exclude each other. Whether there is one at all is asked first, as that is found
 * faster; where the cheapest is out of reach, one that fits is made as cheap as changing places makes it.
 */
function fittingOrder(prices: Prices, meets: Meets, works: ((order: readonly number[]) => boolean) | undefined): BestOrder {
  const { count, cost } = prices;
  const none = { order: undefined, cost: Number.POSITIVE_INFINITY };
  if (isHopeless(count, meets)) return { ...none, exact: true };
  const wish = orderBy(prices, () => true).order ?? [];
  const any = anyOrder(wish, meets);
  if (any.order === undefined && any.exact) return { ...none, exact: true };
  const fits = (item: number, position: number, placed: readonly number[]): boolean =>
    !meets(item, position, item, position) && placed.every((other, at) => !meets(item, position, other, at));
  if (count <= EXACT_UP_TO) {
    const found = orderBy(prices, fits, works);
    if (found.order !== undefined || found.exact) return found;
  }
  if (any.order === undefined) return { ...none, exact: false };
  const costOf = (order: readonly number[]): number =>
    order.reduce((sum, item, at) => sum + order.slice(0, at).reduce((part, before) => part + cost(before, item), 0), 0);
  const order = bySwaps(any.order, costOf, (changed) => changed.every((item, at) => fits(item, at, changed.slice(0, at))));
  return works === undefined || works(order) ? { order, cost: costOf(order), exact: false } : { ...none, exact: false };
}

/** Answers are kept by number here and by name in the ground: the same meetings come up in many sets. */
function meetingTable(ground: Ground, count: number, animalsAt: (item: number, position: number) => StockAnimal[]): Meets {
  const known = new Int8Array(count * count * count * count);
  return (item, position, other, otherPosition) => {
    const at = ((item * count + position) * count + other) * count + otherPosition;
    if (known[at] === 0) {
      const own = animalsAt(item, position);
      const others = item === other ? [...ground.stock.animals, ...own] : animalsAt(other, otherPosition);
      known[at] = own.some((one) => others.some((two) => one.id !== two.id && meetingOf(ground, one, two).excludes)) ? 1 : -1;
    }
    return known[at] === 1;
  };
}

/** Whether some item or pair fits nowhere, so that no order need be tried. */
function isHopeless(count: number, meets: Meets): boolean {
  const positions = Array.from({ length: count }, (_, position) => position);
  for (let item = 0; item < count; item += 1) {
    if (positions.every((position) => meets(item, position, item, position))) return true;
    for (let other = item + 1; other < count; other += 1) {
      const apart = (position: number, otherPosition: number): boolean =>
        position === otherPosition || meets(item, position, other, otherPosition);
      if (positions.every((position) => positions.every((otherPosition) => apart(position, otherPosition)))) return true;
    }
  }
  return false;
}
