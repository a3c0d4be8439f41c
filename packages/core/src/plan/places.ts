import type { StockAnimal } from '../stock/stock.js';
import { clashAt, clashWithResidents, type Place } from './clashes.js';
import { type Ground, lastDay, mayExclude, meetingOf, type Parts } from './ground.js';
import { newcomerFrom, type Pick } from './line.js';

/** Most values tried before the question is left open. */
const MOST_STEPS = 2000;

/** Places for the lines that are in grave danger; without them, `decided` where none exist. */
export interface Meeting {
  readonly places: ReadonlyMap<string, Place> | undefined;
  readonly decided: boolean;
  /** The latest position that each of these lines can have, whatever its length. */
  readonly latest: ReadonlyMap<string, number>;
}

/**
 * Lengths and positions of entry with which no two of some picks exclude each other, when there are so many positions at most.
 * Gaps in the order are allowed, as other batches may fill them: what fails here fails in every larger set of no more positions
 * as well. Only lines in grave danger are asked; the one with the fewest places left is placed first.
 */
export function placesToMeet(ground: Ground, picks: readonly Pick[], positions: number): Meeting {
  const variables = picks.flatMap((pick): Variable[] => {
    const { predator, prey } = picks.reduce(
      (sum, other) => (other === pick ? sum : joined(sum, rolesBeside(ground, pick, other))),
      rolesBesideResidents(ground, pick),
    );
    if (!predator && !prey) return [];
    return [
      { pick, values: valuesOf(ground, pick, predator, prey, positions).filter((value) => !clashWithResidents(ground, pick, value)) },
    ];
  });
  const places = new Map<string, Place>();
  let steps = 0;
  const assign = (open: readonly Variable[], taken: ReadonlySet<number>): boolean => {
    if (open.length === 0) return true;
    if (open.some(({ values }) => values.length === 0) || isCrowded(open, taken, positions)) return false;
    const next = open.reduce((least, variable) => (variable.values.length < least.values.length ? variable : least));
    const others = open.filter((variable) => variable !== next);
    for (const value of next.values) {
      steps += 1;
      if (steps > MOST_STEPS) return false;
      places.set(next.pick.line.id, value);
      const left = others.map(({ pick, values }) => ({
        pick,
        values: values.filter((other) => !clash(ground, next.pick, value, pick, other)),
      }));
      if (assign(left, new Set([...taken, value.position]))) return true;
    }
    return false;
  };
  ground.spent.work += 1;
  const open = supported(ground, variables);
  const found = assign(open, new Set());
  return { places: found ? places : undefined, decided: found || steps <= MOST_STEPS, latest: latestOf(open) };
}

/** A pick, and the values that are left for it. */
interface Variable {
  readonly pick: Pick;
  readonly values: readonly Place[];
}

const latestOf = (open: readonly Variable[]): Map<string, number> =>
  new Map(open.map(({ pick, values }) => [pick.line.id, Math.max(0, ...values.map(({ position }) => position))]));

/** Values without which some other line could not be placed at all are all that is left. */
function supported(ground: Ground, variables: readonly Variable[]): readonly Variable[] {
  let left = variables;
  for (let changed = true; changed; ) {
    changed = false;
    left = left.map(({ pick, values }) => {
      const kept = values.filter((value) =>
        left.every((other) => other.pick === pick || other.values.some((place) => !clash(ground, pick, value, other.pick, place))),
      );
      changed ||= kept.length < values.length;
      return { pick, values: kept };
    });
  }
  return left;
}

/** Whether more batches want the first places, or the last, than are free there. */
function isCrowded(open: readonly Variable[], taken: ReadonlySet<number>, places: number): boolean {
  const spans = new Map<string, { first: number; last: number }>();
  for (const { pick, values } of open) {
    const name = pick.line.batch;
    const span = spans.get(name) ?? { first: 0, last: places - 1 };
    let first = places;
    let last = -1;
    for (const { position } of values) {
      if (taken.has(position)) continue;
      first = Math.min(first, position);
      last = Math.max(last, position);
    }
    // Whose kin have a place already want none of their own.
    if (last >= 0) spans.set(name, { first: Math.max(span.first, first), last: Math.min(span.last, last) });
  }
  let wantFirst = 0;
  let wantLast = 0;
  let freeBelow = 0;
  let freeAbove = 0;
  for (let place = 0; place < places; place += 1) {
    const mirrored = places - 1 - place;
    freeBelow += taken.has(place) ? 0 : 1;
    freeAbove += taken.has(mirrored) ? 0 : 1;
    for (const { first, last } of spans.values()) {
      if (last === place) wantFirst += 1;
      if (first === mirrored) wantLast += 1;
    }
    if (wantFirst > freeBelow || wantLast > freeAbove) return true;
  }
  return false;
}

/** Longer is safer for what is only prey, shorter for what only swallows; else every length counts. */
function valuesOf(ground: Ground, { line }: Pick, predator: boolean, prey: boolean, places: number): Place[] {
  const { watch } = line;
  const last = Math.max(0, line.lengthsCm.length - 1);
  const every = line.lengthsCm.length === 0 ? [0] : line.lengthsCm.map((_, index) => index);
  const lengths = ground.stock.settings.whenUncertain === 'exclude' || predator === prey ? every : prey ? [last] : [0];
  const positions = Array.from({ length: places }, (_, position) => position).filter(
    (position) => watch === undefined || position >= ground.watchedFrom,
  );
  return lengths.flatMap((length) => positions.map((position) => ({ length, position })));
}

const joined = (one: Parts, other: Parts): Parts => ({ predator: one.predator || other.predator, prey: one.prey || other.prey });

/** Which parts a line plays in dangers at their worst, found once a pair. */
function remembered(ground: Ground, key: string, find: () => Parts): Parts {
  const found = ground.roles.get(key) ?? find();
  ground.roles.set(key, found);
  return found;
}

const strong = (ground: Ground, { line, count }: Pick): StockAnimal =>
  newcomerFrom({ line, count }, ground.startDay, line.lengthsCm.at(-1));
const weak = (ground: Ground, { line, count }: Pick): StockAnimal => newcomerFrom({ line, count }, lastDay(ground), line.lengthsCm[0]);

function roleIn(ground: Ground, id: string, one: StockAnimal, other: StockAnimal): Parts {
  const { grave } = meetingOf(ground, one, other);
  return { predator: grave.predators.includes(id), prey: grave.prey.includes(id) };
}

const rolesBeside = (ground: Ground, one: Pick, other: Pick): Parts =>
  remembered(ground, `${one.line.index}x${one.count} ${other.line.index}x${other.count}`, () =>
    mayExclude(ground, weak(ground, one), weak(ground, other))
      ? BOTH
      : joined(
          roleIn(ground, one.line.id, strong(ground, one), weak(ground, other)),
          roleIn(ground, one.line.id, weak(ground, one), strong(ground, other)),
        ),
  );

function mayExcludeAny(ground: Ground, pick: Pick): boolean {
  const own = weak(ground, pick);
  return [own, ...ground.stock.animals].some((other) => mayExclude(ground, own, other));
}

/** Under a rule that says nothing of length every one may be the safest. */
const BOTH: Parts = { predator: true, prey: true };

const rolesBesideResidents = (ground: Ground, pick: Pick): Parts =>
  remembered(ground, `${pick.line.index}x${pick.count}`, () =>
    mayExcludeAny(ground, pick)
      ? BOTH
      : [strong(ground, pick), weak(ground, pick)]
          .flatMap((own) => ground.stock.animals.map((resident) => roleIn(ground, pick.line.id, own, resident)))
          .reduce(joined, { predator: false, prey: false }),
  );

/** Kin go in on one day, all others on days of their own; and no two may exclude each other. */
const clash = (ground: Ground, one: Pick, place: Place, other: Pick, otherPlace: Place): boolean =>
  (place.position === otherPlace.position) !== (one.line.batch === other.line.batch) || clashAt(ground, one, place, other, otherPlace);
