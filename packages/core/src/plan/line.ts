import { exactly } from '../quantity/band.js';
import { batchName } from './batches.js';
import { laidOut } from '../stock/same-shape.js';
import type { StockAnimal, StockKind, StockWish } from '../stock/stock.js';

/** A wish that may come in: what it is called in findings and the entry lengths it can be bought at, shortest first. */
export interface Line {
  /** Its number among the lines. */
  readonly index: number;
  readonly id: string;
  /** What goes in with it shares the name. */
  readonly batch: string;
  readonly wish: StockWish;
  /** Up to three total lengths in cm, in tenths; empty where no entry length is known. */
  readonly lengthsCm: readonly number[];
  /** Days that it is watched in a holding tank before it goes in, and the first on which it can be bought; undefined where it is not watched. */
  readonly watch: Watch | undefined;
  /** First day on which the tank is old enough for it, where it wants an old tank. */
  readonly readyDay: number;
}

export interface Watch {
  readonly days: number;
  readonly fromDay: number;
}

/** The lengths to try, one of them unknown where none is known. */
export const everyLength = ({ lengthsCm }: Line): readonly (number | undefined)[] => (lengthsCm.length === 0 ? [undefined] : lengthsCm);

/** A line with a number of animals. */
export interface Pick {
  readonly line: Line;
  readonly count: number;
}

/**
 * The wishes as lines, in a fixed order: by priority, then by species. Ids are the species', made unlike any id that is
 * taken.
 */
export function linesOf(
  wishes: readonly StockWish[],
  taken: Iterable<string>,
  watch: Watch | undefined,
  readyDay: (kind: StockKind) => number,
): Line[] {
  const used = new Set(taken);
  return [...wishes].sort(byWorth).map((wish, index) => {
    const id = freeId(wish.kind.id, used);
    used.add(id);
    const { entryCm } = wish;
    const tenths = entryCm === undefined ? [] : [entryCm.low, entryCm.centre, entryCm.high].map((length) => Math.round(length * 10) / 10);
    return {
      index,
      id,
      batch: batchName(wish.kind),
      wish,
      lengthsCm: [...new Set(tenths)],
      watch: wish.kind.form === 'fish' ? watch : undefined,
      readyDay: readyDay(wish.kind),
    };
  });
}

/** An id for an animal of a species: the species', with a number behind where that is taken. */
export function freeId(species: string, taken: ReadonlySet<string>): string {
  let id = species;
  for (let n = 2; taken.has(id); n += 1) id = `${species}-${n}`;
  return id;
}

function byWorth(one: StockWish, other: StockWish): number {
  if (one.priority !== other.priority) return other.priority - one.priority;
  if (one.kind.id !== other.kind.id) return one.kind.id < other.kind.id ? -1 : 1;
  if (one.must !== other.must) return one.must ? -1 : 1;
  return one.least - other.least || one.most - other.most || (one.entryCm?.centre ?? 0) - (other.entryCm?.centre ?? 0);
}

/** The day on which it is bought, to go in on a day: as long before as it is to be watched, as far as that is possible. */
const purchaseDay = ({ watch }: Line, day: number): number | undefined =>
  watch === undefined ? undefined : Math.min(day, Math.max(watch.fromDay, day - watch.days));

/** A pick as an animal of the stock, that goes in on a day at a length. */
export function newcomerFrom(pick: Pick, day: number, lengthCm: number | undefined): StockAnimal {
  return laidOut({
    id: pick.line.id,
    name: undefined,
    kind: pick.line.wish.kind,
    count: pick.count,
    role: 'newcomer',
    sex: undefined,
    origin: pick.line.wish.origin,
    purchaseDay: purchaseDay(pick.line, day),
    lengthCm: lengthCm === undefined ? undefined : exactly(lengthCm),
    lengthDay: day,
    entryDay: day,
    leaveDay: Number.POSITIVE_INFINITY,
  });
}

/** An animal that goes in on another day, as long as it was to be. */
export const movedTo = (animal: StockAnimal, day: number): StockAnimal => laidOut({ ...animal, entryDay: day, lengthDay: day });
