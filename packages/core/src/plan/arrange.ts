import type { Finding } from '@commensal/schema';
import type { Checked } from '../check/check.js';
import type { StockAnimal } from '../stock/stock.js';
import { type Batch, batchesOf, costBefore } from './batches.js';
import { bestOrder, type BestOrder } from './best-order.js';
import { checkWith, excludes, type Ground, lastDay, meetingRules } from './ground.js';
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
  readonly orderExact: boolean;
}

/**
 * The best way to bring a set in: lengths and order of entry with the fewest findings that rule it out, then the fewest
 * doubts, then the fewest warnings. Where there is none that works, the least bad one, so that its findings can be told.
 */
export function arrange(ground: Ground, picks: readonly Pick[]): Arrangement {
  let best: Arrangement | undefined;
  for (const lengths of lengthChoices(ground, picks)) {
    const arrangement = arrangeWith(ground, picks, lengths);
    if (best === undefined || isBetter(arrangement, best)) best = arrangement;
    if (best.excluding.length + best.doubts + best.warnings === 0) break;
  }
  return best as Arrangement;
}

const isBetter = (one: Arrangement, other: Arrangement): boolean =>
  one.excluding.length !== other.excluding.length
    ? one.excluding.length < other.excluding.length
    : one.doubts !== other.doubts
      ? one.doubts < other.doubts
      : one.warnings < other.warnings;

type Lengths = ReadonlyMap<string, number | undefined>;

/** Most assignments of lengths that are tried for one set. */
const MOST_LENGTH_CHOICES = 243;

/**
 * The entry lengths worth trying. An animal that others could swallow is bought long, one that could swallow others short;
 * who is both is tried at every length where an error hangs on it. What is in no such danger comes at its middle length.
 */
function lengthChoices(ground: Ground, picks: readonly Pick[]): Lengths[] {
  const middle = (pick: Pick): number | undefined => pick.line.lengthsCm[Math.floor((pick.line.lengthsCm.length - 1) / 2)];
  const all = new Map(picks.map((pick) => [pick.line.id, middle(pick)]));
  const { grave, slight } = dangersAmong(ground, picks);
  if (grave.prey.size + grave.predators.size + slight.prey.size + slight.predators.size === 0) return [all];
  let choices: Map<string, number | undefined>[] = [new Map(all)];
  for (const pick of picks) {
    const { id, lengthsCm } = pick.line;
    if (lengthsCm.length < 2) continue;
    const torn = grave.prey.has(id) && grave.predators.has(id);
    const isPrey = grave.prey.has(id) || (slight.prey.has(id) && !slight.predators.has(id));
    const isPredator = grave.predators.has(id) || (slight.predators.has(id) && !slight.prey.has(id));
    const tried = torn ? lengthsCm : isPrey && !grave.predators.has(id) ? [lengthsCm.at(-1)] : isPredator ? [lengthsCm[0]] : [middle(pick)];
    if (choices.length * tried.length > MOST_LENGTH_CHOICES) continue;
    choices = choices.flatMap((choice) => tried.map((length) => new Map(choice).set(id, length)));
  }
  return [all, ...choices];
}

interface Roles {
  readonly predators: Set<string>;
  readonly prey: Set<string>;
}

/**
 * Who could swallow whom among residents and picks, at the lengths and days worst for the prey: where it would rule the set
 * out, and where it would warn.
 */
function dangersAmong(ground: Ground, picks: readonly Pick[]): { grave: Roles; slight: Roles } {
  const rules = meetingRules(ground);
  const grave: Roles = { predators: new Set(), prey: new Set() };
  const slight: Roles = { predators: new Set(), prey: new Set() };
  const ids = new Set(picks.map((pick) => pick.line.id));
  const early = ground.startDay;
  const late = lastDay(ground);
  const shortest = picks.map((pick) => newcomerFrom(pick, late, pick.line.lengthsCm[0]));
  const longest = picks.map((pick) => newcomerFrom(pick, early, pick.line.lengthsCm.at(-1)));
  // Each long and early once against the others short and late: the worst a swallower can be.
  for (const [at, predator] of [undefined, ...longest].entries()) {
    const animals = predator === undefined ? shortest : shortest.map((animal, index) => (index === at - 1 ? predator : animal));
    for (const finding of checkWith(ground, animals, rules).findings) {
      if (finding.level === 'note' || finding.accepted !== undefined) continue;
      const roles = excludes(ground, finding, ids) ? grave : slight;
      for (const { id, role } of finding.subjects) {
        if (role === 'predator') roles.predators.add(id);
        else if (role === 'prey') roles.prey.add(id);
      }
    }
  }
  return { grave, slight };
}

function arrangeWith(ground: Ground, picks: readonly Pick[], lengths: Lengths): Arrangement {
  const batches = batchesOf(ground, picks);
  const dayAt = (position: number): number => ground.startDay + position * ground.gapDays;
  const animalsOf = (batch: Batch, day: number): StockAnimal[] => batch.picks.map((pick) => newcomerFrom(pick, day, lengths.get(pick.line.id)));
  const animalsAt = (item: number, position: number): StockAnimal[] => animalsOf(batches[item] as Batch, dayAt(position));

  const cost = (before: number, after: number): number => costBefore(batches[before] as Batch, batches[after] as Batch);
  const meets = meetingTable(ground, batches.length, animalsAt);
  const fits = (item: number, position: number, placed: readonly number[]): boolean =>
    !meets(item, position, item, position) && placed.every((other, at) => !meets(item, position, other, at));
  const inOrder = isHopeless(batches.length, meets) ? undefined : bestOrder(batches.length, cost, fits);
  const found = inOrder ?? { ...(bestOrder(batches.length, cost, () => true) as BestOrder), exact: false };

  const placed = found.order.map((item, position) => {
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
    doubts: ground.stock.settings.whenUncertain === 'allow' ? 0 : open.filter((finding) => finding.outcome === 'cantTell' && finding.level === 'error').length,
    warnings: open.filter((finding) => finding.outcome === 'failed' && finding.level === 'warning').length,
    orderExact: found.exact,
  };
}

/** Whether one item at a position excludes another at its own, or, with itself, the residents. */
type Meets = (item: number, position: number, other: number, otherPosition: number) => boolean;

/** Answers are kept by number here and by name in the ground: the same meetings come up in many sets. */
function meetingTable(ground: Ground, count: number, animalsAt: (item: number, position: number) => StockAnimal[]): Meets {
  const known = new Int8Array(count * count * count * count);
  return (item, position, other, otherPosition) => {
    const at = ((item * count + position) * count + other) * count + otherPosition;
    if (known[at] === 0) {
      const others = item === other ? [] : animalsAt(other, otherPosition);
      known[at] = clash(ground, animalsAt(item, position), others) ? 1 : -1;
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
      const apart = (position: number, otherPosition: number): boolean => position === otherPosition || meets(item, position, other, otherPosition);
      if (positions.every((position) => positions.every((otherPosition) => apart(position, otherPosition)))) return true;
    }
  }
  return false;
}

/** Whether animals of two batches exclude each other, or one batch and the residents, by when they meet. */
function clash(ground: Ground, own: readonly StockAnimal[], others: readonly StockAnimal[]): boolean {
  const key = [...own, ...others].map((animal) => `${animal.id}@${animal.count}@${animal.entryDay}@${animal.lengthCm?.centre}`).join(' ');
  const known = ground.clashes.get(key);
  if (known !== undefined) return known;
  const ids = new Set([...own, ...others].map((animal) => animal.id));
  const found = checkWith(ground, [...own, ...others], meetingRules(ground)).findings.some((finding) => excludes(ground, finding, ids));
  ground.clashes.set(key, found);
  return found;
}
