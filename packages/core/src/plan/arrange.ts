import type { Finding } from '@commensal/schema';
import type { Checked } from '../check/check.js';
import type { AnyRule } from '../rules/rule.js';
import type { StockAnimal } from '../stock/stock.js';
import { type Batch, batchesOf, costBefore } from './batches.js';
import { anyOrder, bySwaps, type Meets } from './any-order.js';
import { EXACT_UP_TO, orderBy, type Prices, pricesOf } from './best-order.js';
import { placesToMeet } from './places.js';
import { clashAt, clashWithResidents, type Place } from './clashes.js';
import { capacityRules, checkWith, excludes, excludingRules, findingsWith, type Ground, isFixed, mayPass } from './ground.js';
import { everyWay, type Way } from './every-way.js';
import { type Lengths, lengthsByDanger, lengthsByRoom } from './lengths.js';
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
  /** It works, or no lengths and order exist with which it would. */
  readonly decided: boolean;
}

/**
 * The best way to bring a set in: lengths and order of entry with the fewest findings that rule it out, then the fewest
 * doubts, then the fewest warnings. Where there is none that works, the least bad one, so that its findings can be told.
 */
export function arrange(ground: Ground, picks: readonly Pick[]): Arrangement {
  const batches = batchesOf(ground, picks);
  const prices = pricesOf(batches.length, (before, after) => costBefore(batches[before] as Batch, batches[after] as Batch));
  const set: PickedSet = { ground, picks, batches, prices };
  const likely = arrangeByDanger(set);
  if (likely.excluding.length === 0 || likely.decided) return likely;
  if (ground.stock.settings.whenUncertain !== 'exclude' && likely.excluding.some((finding) => isFixed(ground, finding)))
    return { ...likely, decided: true };
  const animalsOf = ({ order, lengths }: Way): readonly StockAnimal[] => placedBy(set, order, lengths).flatMap(({ animals }) => animals);
  const { way, all } = everyWay(ground, picks, batches.length, (lengths) => meetingsOf(ground, batches, lengths), animalsOf);
  return way === undefined ? { ...likely, decided: all } : arrangementOf(set, way.order, way.lengths, true);
}

/** The same for what hangs on dangers and on sums; `decided` is false where it fails for what hangs on the whole. */
function arrangeByDanger(set: PickedSet): Arrangement {
  const { ground, picks, batches } = set;
  const { places, decided } = placesToMeet(ground, picks, batches.length);
  const byDanger = lengthsByDanger(ground, picks);
  const { best, roomLacks, allDecided } = bestOf(set, places === undefined ? byDanger : [...byDanger, withPlaces(byDanger, places)], false);
  if (best.excluding.length === 0) return best;
  // With places in which nobody excludes anybody, what is left are rules that ask for neither length nor day, or sums.
  if (!roomLacks) return { ...best, decided: places === undefined ? decided : allDecided && !hangsOnOrder(ground, best) };
  const { choices, all } = lengthsByRoom(ground, picks);
  const roomy = choices.filter((lengths) => mayHaveRoom(set, lengths));
  if (roomy.length === 0) return { ...best, decided: all };
  const byRoom = bestOf(set, roomy, true);
  return {
    ...(isBetter(byRoom.best, best) ? byRoom.best : best),
    decided: byRoom.best.excluding.length === 0 || (all && byRoom.allDecided),
  };
}

const withPlaces = ([lengths]: readonly Lengths[], places: ReadonlyMap<string, Place>): Lengths =>
  new Map([...(lengths ?? []), ...[...places].map(([id, { length }]): [string, number] => [id, length])]);

interface PickedSet {
  readonly ground: Ground;
  readonly picks: readonly Pick[];
  readonly batches: readonly Batch[];
  readonly prices: Prices;
}

const hasRule = (ground: Ground, planning: AnyRule['planning'], { rule }: Finding): boolean =>
  ground.rules.some(({ id, planning: its }) => id === rule && its === planning);

/** A rule on the order of introductions rules it out; none of ours does. */
const hangsOnOrder = (ground: Ground, { excluding }: Arrangement): boolean => excluding.some((finding) => hasRule(ground, 'plan', finding));

/** All that rules it out are sums, which are smaller where what counts most comes in small or late. */
const hangsOnRoom = (ground: Ground, { excluding }: Arrangement): boolean =>
  excluding.every((finding) => capacityRules(ground).some(({ id }) => id === finding.rule));

/** The best of some lengths; `roomLacks` where one of them fails by nothing but sums. */
function bestOf(
  set: PickedSet,
  choices: readonly Lengths[],
  forRoom: boolean,
): { best: Arrangement; roomLacks: boolean; allDecided: boolean } {
  let best: Arrangement | undefined;
  let allDecided = true;
  let roomLacks = false;
  for (const lengths of choices) {
    const arrangement = arrangeWith(set, lengths, forRoom);
    allDecided &&= arrangement.decided;
    roomLacks ||= hangsOnRoom(set.ground, arrangement);
    if (best === undefined || isBetter(arrangement, best)) best = arrangement;
    if (best.excluding.length === 0 && (set.ground.onlyWhether || best.doubts + best.warnings === 0)) break;
  }
  return { best: best as Arrangement, roomLacks, allDecided };
}

const isBetter = (one: Arrangement, other: Arrangement): boolean =>
  one.excluding.length !== other.excluding.length
    ? one.excluding.length < other.excluding.length
    : one.doubts !== other.doubts
      ? one.doubts < other.doubts
      : one.warnings < other.warnings;

function arrangeWith(set: PickedSet, lengths: Lengths, forRoom: boolean): Arrangement {
  const { ground, batches, prices } = set;
  const meets = meetingsOf(ground, batches, lengths);
  const works = forRoom
    ? (order: readonly number[]): boolean =>
        hasRoom(
          ground,
          placedBy(set, order, lengths).flatMap(({ animals }) => animals),
        )
    : undefined;
  const fitting = fittingOrder(prices, meets, works);
  return arrangementOf(set, fitting.order ?? orderBy(prices, () => true).order ?? [], lengths, fitting.decided);
}

/** Batches in an order at lengths, a gap apart. */
const placedBy = ({ ground, batches }: PickedSet, order: readonly number[], lengths: Lengths): Arrangement['batches'] =>
  order.map((item, position) => {
    const batch = batches[item] as Batch;
    const day = ground.startDay + position * ground.gapDays;
    return {
      batch,
      day,
      animals: batch.picks.map((pick) => newcomerFrom(pick, day, pick.line.lengthsCm[lengths.get(pick.line.id) ?? 0])),
    };
  });

function arrangementOf(set: PickedSet, order: readonly number[], lengths: Lengths, orderIsDecided: boolean): Arrangement {
  const { ground, picks } = set;
  const placed = placedBy(set, order, lengths);
  const newcomers = placed.flatMap((entry) => entry.animals);
  const ids = new Set(newcomers.map((animal) => animal.id));
  const isOut = (finding: Finding): boolean => finding.accepted === undefined && excludes(ground, finding, ids);
  const checked = ground.onlyWhether ? checkUntilOut(ground, newcomers, isOut) : checkWith(ground, newcomers);
  const open = checked.findings.filter((finding) => finding.accepted === undefined);
  const excluding = open.filter(isOut);
  return {
    picks,
    batches: placed,
    newcomers,
    checked,
    excluding,
    doubts:
      ground.stock.settings.whenUncertain === 'allow'
        ? 0
        : open.filter((finding) => finding.outcome === 'cantTell' && finding.level === 'error').length,
    warnings: open.filter((finding) => finding.outcome === 'failed' && finding.level === 'warning').length,
    decided: orderIsDecided && !excluding.some((finding) => mayPass(ground, finding)),
  };
}

/** Where only whether is asked, what is dear to ask need not be where something else keeps the set out. */
function checkUntilOut(ground: Ground, newcomers: readonly StockAnimal[], isOut: (finding: Finding) => boolean): Checked {
  const rules = excludingRules(ground);
  const cheap = checkWith(ground, newcomers, rules.slice(0, -1));
  return cheap.findings.some(isOut) ? cheap : checkWith(ground, newcomers, rules.slice(-1));
}

function hasRoom(ground: Ground, newcomers: readonly StockAnimal[]): boolean {
  const ids = new Set(newcomers.map((animal) => animal.id));
  return !findingsWith(ground, newcomers, capacityRules(ground)).some((finding) => excludes(ground, finding, ids));
}

/** Whether there is room with everything in on the last day, when sums are least. Doubts do not go by that. */
const mayHaveRoom = ({ ground, picks, batches }: PickedSet, lengths: Lengths): boolean =>
  ground.stock.settings.whenUncertain === 'exclude' ||
  hasRoom(
    ground,
    picks.map((pick) =>
      newcomerFrom(pick, ground.startDay + (batches.length - 1) * ground.gapDays, pick.line.lengthsCm[lengths.get(pick.line.id) ?? 0]),
    ),
  );

/** An order that fits; without one, `decided` where there is none. */
interface FittingOrder {
  readonly order: readonly number[] | undefined;
  readonly decided: boolean;
}

/**
 * The cheapest order in which no two batches exclude each other. Whether there is one at all is asked first, as that is found
 * faster; where the cheapest is out of reach, one that fits is made as cheap as changing places makes it.
 */
function fittingOrder(prices: Prices, meets: Meets, works: ((order: readonly number[]) => boolean) | undefined): FittingOrder {
  const { count, cost } = prices;
  if (isHopeless(count, meets)) return { order: undefined, decided: true };
  const any = anyOrder(orderBy(prices, () => true).order ?? [], meets);
  if (any.order === undefined && any.exact) return { order: undefined, decided: true };
  const fits = (item: number, position: number, placed: readonly number[]): boolean =>
    !meets(item, position, item, position) && placed.every((other, at) => !meets(item, position, other, at));
  if (count <= EXACT_UP_TO) {
    const found = orderBy(prices, fits, works);
    if (found.order !== undefined || found.exact) return { order: found.order, decided: true };
  }
  if (any.order === undefined) return { order: undefined, decided: false };
  const order = bySwaps(any.order, cost, (changed) => changed.every((item, at) => fits(item, at, changed.slice(0, at))));
  return works === undefined || works(order) ? { order, decided: true } : { order: undefined, decided: false };
}

/** Whether batches exclude each other at their positions; a batch with itself, whether its members or the residents do. */
function meetingsOf(ground: Ground, batches: readonly Batch[], lengths: Lengths): Meets {
  const placed = batches.map(({ picks }) => picks.map((pick) => ({ pick, length: lengths.get(pick.line.id) ?? 0 })));
  return (item, position, other, otherPosition) => {
    const own = placed[item] ?? [];
    const others = placed[other] ?? [];
    for (const { pick, length } of own) {
      if (item === other && clashWithResidents(ground, pick, { length, position })) return true;
      for (const two of others) {
        if (two.pick !== pick && clashAt(ground, pick, { length, position }, two.pick, { length: two.length, position: otherPosition }))
          return true;
      }
    }
    return false;
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
