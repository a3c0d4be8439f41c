import type { Finding, Level, OrderProof } from '@commensal/schema';
import { type Asked, byGravity, findingsOf } from '../check/check.js';
import type { AnyRule } from '../rules/rule.js';
import type { StockAnimal } from '../stock/stock.js';
import { type Batch, batchesOf, costBefore, watchOf } from './batches.js';
import { anyOrder, bySwaps, type Meets } from './any-order.js';
import { EXACT_UP_TO, orderBy, type Prices, pricesOf } from './best-order.js';
import { costOf } from './best-order/improved.js';
import { placesToMeet } from './places.js';
import { clashAt, clashWithResidents, mayClash, type Place } from './clashes.js';
import { dayAt, excludes, findingsWith, type Ground, isFixed, mayFail, mayPass, placesFor, stockWith } from './ground.js';
import { asksToWait, delayed } from './delays.js';
import { everyWay, type Way } from './every-way.js';
import { type Lengths, lengthsByDanger, lengthsByRoom } from './lengths.js';
import { movedTo, newcomerFrom, type Pick } from './line.js';
import { isAmong } from './rule-sets.js';

/** A set of picks with lengths and days, and what check says of it. */
export interface Arrangement {
  readonly picks: readonly Pick[];
  readonly batches: readonly { readonly batch: Batch; readonly day: number; readonly animals: readonly StockAnimal[] }[];
  /** What was found: by all rules where the set works and it is asked how well, else by those that can rule it out. */
  readonly findings: readonly Finding[];
  /** Findings that rule the set out; empty where it works. */
  readonly excluding: readonly Finding[];
  /** Doubts about errors, then warnings: what sets of equal value are ranked by. */
  readonly doubts: number;
  readonly warnings: number;
  /** It works, or no lengths and order exist with which it would. */
  readonly decided: boolean;
  /** What its order breaks of what is usual, and whether any breaks less. */
  readonly order: OrderProof;
}

/**
 * The best way to bring a set in: lengths and order of entry with the fewest findings that rule it out, then the fewest
 * doubts, then the fewest warnings. Where there is none that works, the least bad one, so that its findings can be told.
 */
export function arrange(ground: Ground, picks: readonly Pick[]): Arrangement {
  let best: Arrangement | undefined;
  let decided = true;
  for (const set of pickedSets(ground, picks)) {
    const found = arrangeOn(set);
    if (best === undefined || isBetter(found, best)) best = found;
    decided &&= found.decided;
    if (found.excluding.length === 0) break;
  }
  const { excluding } = best as Arrangement;
  return { ...(best as Arrangement), decided: excluding.length === 0 || decided };
}

/** The same at the lengths that dangers ask for alone: how most sets that work do. Undefined where that is not enough to tell. */
export function arrangeAtOnce(ground: Ground, picks: readonly Pick[]): Arrangement | undefined {
  const [set] = pickedSets(ground, picks);
  const found = set === undefined ? undefined : bestOf({ ...set, onlyIfItWorks: true }, lengthsByDanger(ground, picks), false).best;
  return found?.excluding.length === 0 ? found : undefined;
}

/** Picks in batches, once for each way in which these may follow one another in time. */
export function pickedSets(ground: Ground, picks: readonly Pick[]): PickedSet[] {
  const batches = batchesOf(ground, picks);
  const prices = pricesOf(batches.length, (before, after) => costBefore(batches[before] as Batch, batches[after] as Batch));
  return footings(ground, batches).map(({ first, positions }) => ({
    ground,
    picks,
    batches,
    prices,
    first,
    positions,
    onlyIfItWorks: false,
  }));
}

/** A set with its batches in an order, by name, at lengths; undefined where another batch has to be the first. */
export function arrangementIn(set: PickedSet, names: readonly string[], lengths: Lengths): Arrangement | undefined {
  const order = names.map((name) => set.batches.findIndex(({ picks }) => picks[0]?.line.batch === name));
  return set.first !== undefined && order[0] !== set.first ? undefined : arrangementOf(set, order, lengths, true, false);
}

/** Which positions the batches of an order take, and which batch has to be the first where that matters. */
interface Footing {
  readonly first: number | undefined;
  readonly positions: readonly number[];
}

/**
 * What is watched waits for its day, and what is not can go in at once: scavengers first and the others as soon as they may, or
 * everything later.
 */
function footings({ watchedFrom }: Ground, batches: readonly Batch[]): Footing[] {
  const isWatched = (batch: Batch): boolean => watchOf(batch) !== undefined;
  const from = (start: number): number[] => batches.map((_, index) => index + start);
  if (watchedFrom === 0 || !batches.some(isWatched)) return [{ first: undefined, positions: from(0) }];
  const later: Footing = { first: undefined, positions: from(watchedFrom) };
  const unwatched = batches.findIndex((batch) => batch.scavengers && !isWatched(batch));
  return unwatched < 0 ? [later] : [{ first: unwatched, positions: [0, ...from(watchedFrom).slice(0, -1)] }, later];
}

function arrangeOn(set: PickedSet): Arrangement {
  const { ground, picks, batches } = set;
  const likely = arrangeByDanger(set);
  if (likely.excluding.length === 0 || likely.decided) return likely;
  if (failsAnyhow(ground, likely)) return { ...likely, decided: true };
  const animalsOf = ({ order, lengths }: Way): readonly StockAnimal[] => placedBy(set, order, lengths).flatMap(({ animals }) => animals);
  const { way, all } = everyWay(ground, picks, batches.length, (lengths) => meetingsOf(set, lengths), animalsOf);
  return way === undefined ? { ...likely, decided: all } : arrangementOf(set, way.order, way.lengths, true, false);
}

/** The same for what hangs on dangers and on sums; `decided` is false where it fails for what hangs on the whole. */
function arrangeByDanger(set: PickedSet): Arrangement {
  const { ground, picks, batches } = set;
  const byDanger = lengthsByDanger(ground, picks);
  const likely = bestOf(set, byDanger, false);
  if (likely.best.excluding.length === 0 || failsAnyhow(ground, likely.best)) return likely.best;
  const { places, decided } = placesToMeet(ground, picks, placesFor(ground, batches.length));
  const placed = places === undefined ? undefined : bestOf(set, [withPlaces(byDanger, places)], false);
  const best = placed !== undefined && isBetter(placed.best, likely.best) ? placed.best : likely.best;
  const roomLacks = likely.roomLacks || placed?.roomLacks === true;
  const allDecided = likely.allDecided && placed?.allDecided !== false;
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

interface Ranked {
  readonly excluding: readonly Finding[];
  readonly doubts: number;
  readonly warnings: number;
}

export interface PickedSet {
  readonly ground: Ground;
  readonly picks: readonly Pick[];
  readonly batches: readonly Batch[];
  readonly prices: Prices;
  readonly first: number | undefined;
  readonly positions: readonly number[];
  /** What does not work is not told of, so that it need not be known how well it would do. */
  readonly onlyIfItWorks: boolean;
}

const hasRule = (ground: Ground, planning: AnyRule['planning'], { rule }: Finding): boolean =>
  ground.rules.some(({ id, planning: its }) => id === rule && its === planning);

/** A rule on the order of introductions rules it out; none of ours does. */
const hangsOnOrder = (ground: Ground, { excluding }: Arrangement): boolean => excluding.some((finding) => hasRule(ground, 'plan', finding));

/** All that rules it out are sums, which are smaller where what counts most comes in small or late. */
const hangsOnRoom = (ground: Ground, { excluding }: Arrangement): boolean =>
  excluding.every((finding) => isAmong(ground.sets.capacity, finding.rule));

/** Where doubts exclude, one may give way to a milder failure at other lengths. */
export const failsAnyhow = (ground: Ground, { excluding }: Ranked): boolean =>
  ground.stock.settings.whenUncertain !== 'exclude' && excluding.some((finding) => isFixed(ground, finding));

/** The best of some lengths; `roomLacks` where one of them fails by nothing but sums. */
function bestOf(
  set: PickedSet,
  choices: readonly Lengths[],
  forRoom: boolean,
): { best: Arrangement; roomLacks: boolean; allDecided: boolean } {
  let best: Arrangement | undefined;
  let allDecided = true;
  let roomLacks = false;
  for (const [at, lengths] of choices.entries()) {
    // What stands at any lengths needs no others to be tried: the usual ones and those that dangers ask for are enough to tell it.
    if (best !== undefined && (set.ground.asks !== 'how-well' || at > 1) && failsAnyhow(set.ground, best)) break;
    const arrangement = arrangeWith(set, lengths, forRoom);
    allDecided &&= arrangement.decided;
    roomLacks ||= hangsOnRoom(set.ground, arrangement);
    if (best === undefined || isBetter(arrangement, best)) best = arrangement;
    if (best.excluding.length === 0 && (set.ground.asks !== 'how-well' || best.doubts + best.warnings === 0)) break;
  }
  return { best: best as Arrangement, roomLacks, allDecided };
}

const isBetter = (one: Ranked, other: Ranked): boolean =>
  one.excluding.length !== other.excluding.length
    ? one.excluding.length < other.excluding.length
    : one.doubts !== other.doubts
      ? one.doubts < other.doubts
      : one.warnings < other.warnings;

function arrangeWith(set: PickedSet, lengths: Lengths, forRoom: boolean): Arrangement {
  const { ground, prices } = set;
  const meets = meetingsOf(set, lengths);
  const works = forRoom
    ? (order: readonly number[]): boolean =>
        hasRoom(
          ground,
          placedBy(set, order, lengths).flatMap(({ animals }) => animals),
        )
    : undefined;
  const fitting = fittingOrder(prices, meets, works);
  return arrangementOf(set, fitting.order ?? orderBy(prices, () => true).order ?? [], lengths, fitting.decided, fitting.exact);
}

/** Batches in an order at lengths, a gap apart unless other days are given. */
const placedBy = (
  { ground, batches, positions }: PickedSet,
  order: readonly number[],
  lengths: Lengths,
  days: readonly number[] = positions.map((position) => dayAt(ground, position)),
): Arrangement['batches'] =>
  order.map((item, index) => {
    const batch = batches[item] as Batch;
    const day = days[index] as number;
    return {
      batch,
      day,
      animals: batch.picks.map((pick) => newcomerFrom(pick, day, pick.line.lengthsCm[lengths.get(pick.line.id) ?? 0])),
    };
  });

/** As soon as may be, a gap apart; later, where the tank has to grow older or its nitrifiers need longer, and that is better. */
function arrangementOf(
  set: PickedSet,
  order: readonly number[],
  lengths: Lengths,
  orderIsDecided: boolean,
  isCheapest: boolean,
): Arrangement {
  const { ground } = set;
  let best = judged(set, placedBy(set, order, lengths), orderIsDecided);
  let last = best;
  for (let tries = 0; tries < MOST_DELAYS && !failsAnyhow(ground, last); tries += 1) {
    const later = delayed(ground, last.batches, last.findings);
    if (later === undefined) break;
    last = judged(set, placedBy(set, order, lengths, later), orderIsDecided);
    if (isBetter(last, best)) best = last;
  }
  const sooner = ground.asks === 'how-well' ? firstAtOnce(set, best) : undefined;
  const isTold = ground.asks === 'how-well' && best.excluding.length === 0;
  return { ...(sooner ?? best), order: isTold ? orderProof(set.prices, order, isCheapest) : UNTOLD };
}

const UNTOLD: OrderProof = { proven: false, cost: 0, atLeast: 0 };

/** What comes first and is not watched need not wait with what is. */
function firstAtOnce(set: PickedSet, found: Omit<Arrangement, 'order'>): Omit<Arrangement, 'order'> | undefined {
  const { ground } = set;
  const { batches } = found;
  const watchedAt = batches.findIndex(({ batch }) => watchOf(batch) !== undefined);
  if (found.excluding.length > 0 || watchedAt <= 0) return undefined;
  let next = ground.startDay;
  const sooner = batches.map((entry, at) => {
    if (at >= watchedAt) return entry;
    const day = Math.min(entry.day, Math.max(next, entry.batch.readyDay));
    next = day + ground.gapDays;
    return { ...entry, day, animals: entry.animals.map((animal) => movedTo(animal, day)) };
  });
  if (sooner.every(({ day }, at) => day === batches[at]?.day)) return undefined;
  const placed = judged(set, sooner, found.decided);
  return isBetter(found, placed) ? undefined : placed;
}

/** What an order costs, and what every order costs at least. */
function orderProof({ cost, atLeast }: Prices, order: readonly number[], isCheapest: boolean): OrderProof {
  const spent = costOf(order, cost);
  const least = isCheapest ? spent : Math.min(spent, atLeast());
  return { proven: spent <= least, cost: spent, atLeast: least };
}

/** Delays of one order that are tried one after the other: a wait for one batch may make another wait. */
const MOST_DELAYS = 6;

function judged(set: PickedSet, placed: Arrangement['batches'], orderIsDecided: boolean): Omit<Arrangement, 'order'> {
  const { ground, picks, onlyIfItWorks } = set;
  const newcomers = placed.flatMap((entry) => entry.animals);
  const ids = new Set(newcomers.map((animal) => animal.id));
  const isOut = (finding: Finding): boolean => excludes(ground, finding, ids);
  // What keeps it out is all that need be known of a set that something does; how well one does hangs on small things as well.
  const barred = findingsUntilOut(ground, newcomers, isOut, onlyIfItWorks);
  const findings = ground.asks !== 'how-well' || barred.some(isOut) ? barred : findingsBy(ground, newcomers, ground.sets.all, 'note');
  const open = findings.filter((finding) => finding.accepted === undefined);
  const excluding = open.filter(isOut);
  return {
    picks,
    batches: placed,
    findings,
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
function findingsUntilOut(
  ground: Ground,
  newcomers: readonly StockAnimal[],
  isOut: (finding: Finding) => boolean,
  onlyIfItWorks: boolean,
): readonly Finding[] {
  const { cheap, dear } = ground.sets;
  for (const step of [...(ground.asks === 'whether' ? cheap.map((asked) => [asked]) : [cheap]), dear]) {
    if (!step.every(({ rule }) => mayFail(ground, rule, newcomers))) continue;
    const found = findingsBy(ground, newcomers, step, 'error');
    if (!found.some(isOut)) continue;
    if (ground.asks !== 'how-well') return found;
    return onlyIfItWorks ? withWaits(ground, newcomers, step, found) : findingsBy(ground, newcomers, step, 'note');
  }
  return [];
}

/** What keeps a set out, and what is said of waiting, as a delay may let it in. The work is counted as if all were asked: limits of a search hold what they held. */
function withWaits(
  ground: Ground,
  newcomers: readonly StockAnimal[],
  step: readonly Asked[],
  found: readonly Finding[],
): readonly Finding[] {
  const [waits, others] = [step.filter(({ rule }) => asksToWait(rule)), step.filter(({ rule }) => !asksToWait(rule))];
  ground.spent.work += Math.ceil(step.length / 2) - Math.ceil(waits.length / 2);
  const barring = found.filter(({ rule }) => isAmong(others, rule));
  return waits.length === 0 ? barring : [...barring, ...findingsBy(ground, newcomers, waits, 'note')];
}

/** From a level up, the gravest first. */
function findingsBy(ground: Ground, newcomers: readonly StockAnimal[], asked: readonly Asked[], from: Level): readonly Finding[] {
  ground.spent.work += Math.ceil(asked.length / 2);
  return [...findingsOf(stockWith(ground, newcomers), asked, from)].sort(byGravity);
}

function hasRoom(ground: Ground, newcomers: readonly StockAnimal[]): boolean {
  const ids = new Set(newcomers.map((animal) => animal.id));
  return !findingsWith(ground, newcomers, ground.sets.capacity).some((finding) => excludes(ground, finding, ids));
}

/** Whether there is room with everything in on the last day, when sums are least. Doubts do not go by that. */
const mayHaveRoom = ({ ground, picks, positions }: PickedSet, lengths: Lengths): boolean =>
  ground.stock.settings.whenUncertain === 'exclude' ||
  hasRoom(
    ground,
    picks.map((pick) => {
      const day = Math.max(dayAt(ground, positions.at(-1) ?? 0), pick.line.readyDay);
      return newcomerFrom(pick, day, pick.line.lengthsCm[lengths.get(pick.line.id) ?? 0]);
    }),
  );

/** An order that fits; without one, `decided` where there is none. */
interface FittingOrder {
  readonly order: readonly number[] | undefined;
  readonly decided: boolean;
  /** No order that fits is cheaper. */
  readonly exact: boolean;
}

/**
 * The cheapest order in which no two batches exclude each other. Whether there is one at all is asked first, as that is found
 * faster; where the cheapest is out of reach, one that fits is made as cheap as changing places makes it.
 */
function fittingOrder(prices: Prices, meets: Meets, works: ((order: readonly number[]) => boolean) | undefined): FittingOrder {
  const { count, cost } = prices;
  if (isHopeless(count, meets)) return { order: undefined, decided: true, exact: false };
  const any = anyOrder(orderBy(prices, () => true).order ?? [], meets);
  if (any.order === undefined && any.exact) return { order: undefined, decided: true, exact: false };
  const fits = (item: number, position: number, placed: readonly number[]): boolean =>
    !meets(item, position, item, position) && placed.every((other, at) => !meets(item, position, other, at));
  if (count <= EXACT_UP_TO) {
    const found = orderBy(prices, fits, works);
    if (found.order !== undefined || found.exact) return { order: found.order, decided: true, exact: found.exact };
  }
  if (any.order === undefined) return { order: undefined, decided: false, exact: false };
  const order = bySwaps(any.order, cost, (changed) => changed.every((item, at) => fits(item, at, changed.slice(0, at))));
  return works === undefined || works(order) ? { order, decided: true, exact: false } : { order: undefined, decided: false, exact: false };
}

/** Whether batches exclude each other at their places in the order; a batch with itself, whether its members or the residents do. */
function meetingsOf({ ground, batches, first, positions }: PickedSet, lengths: Lengths): Meets {
  const placed = batches.map(({ picks }) => picks.map((pick): Placed => ({ pick, length: lengths.get(pick.line.id) ?? 0 })));
  // Most cannot clash wherever they are put, and what is asked over and over is short without them.
  const perhaps = new Map<number, readonly (readonly [Placed, Placed])[]>();
  const clashing = (item: number, other: number): readonly (readonly [Placed, Placed])[] => {
    const key = item * batches.length + other;
    const known = perhaps.get(key);
    if (known !== undefined) return known;
    const found = (placed[item] ?? []).flatMap((one) =>
      (placed[other] ?? []).flatMap((two): [Placed, Placed][] =>
        one.pick !== two.pick && mayClash(ground, one.pick, two.pick) ? [[one, two]] : [],
      ),
    );
    perhaps.set(key, found);
    return found;
  };
  return (item, index, other, otherIndex) => {
    if (first !== undefined && (item === first) !== (index === 0)) return true;
    const position = positions[index] as number;
    const otherPosition = positions[otherIndex] as number;
    if (item === other && (placed[item] ?? []).some(({ pick, length }) => clashWithResidents(ground, pick, { length, position })))
      return true;
    for (const [one, two] of clashing(item, other)) {
      if (clashAt(ground, one.pick, { length: one.length, position }, two.pick, { length: two.length, position: otherPosition }))
        return true;
    }
    return false;
  };
}

/** A pick at one of its lengths. */
interface Placed {
  readonly pick: Pick;
  readonly length: number;
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
