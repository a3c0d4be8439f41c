import { type Ground, meetingOf } from './ground.js';
import { type Line, newcomerFrom } from './line.js';

/** Where a line may be put: which of its entry lengths, and the how-manieth batch it comes in with. */
export interface Place {
  readonly length: number;
  readonly position: number;
}

const placesOf = (ground: Ground): number => Math.max(1, ground.mostBatches);

/** Kept by number in the ground, and found as it is asked for: the same meetings come up in many sets. */
function answered(ground: Ground, table: number, size: number, at: number, find: () => boolean): boolean {
  let answers = ground.clashes.get(table);
  if (answers === undefined) {
    answers = new Int8Array(size);
    ground.clashes.set(table, answers);
  }
  if (answers[at] === 0) answers[at] = find() ? 1 : -1;
  return answers[at] === 1;
}

const animalAt = (ground: Ground, line: Line, { length, position }: Place): ReturnType<typeof newcomerFrom> =>
  newcomerFrom({ line, count: line.wish.least }, ground.startDay + position * ground.gapDays, line.lengthsCm[length]);

/** Whether two lines exclude each other, each at its place. Rules on meetings do not count heads. */
export function clashAt(ground: Ground, one: Line, place: Place, other: Line, otherPlace: Place): boolean {
  if (one.index > other.index) return clashAt(ground, other, otherPlace, one, place);
  if (!mayClash(ground, one, other)) return false;
  const places = placesOf(ground);
  const values = 3 * places;
  const at = (place.length * places + place.position) * values + otherPlace.length * places + otherPlace.position;
  return answered(
    ground,
    one.index * ground.lines.length + other.index,
    values * values,
    at,
    () => meetingOf(ground, animalAt(ground, one, place), animalAt(ground, other, otherPlace)).excludes,
  );
}

/**
 * Whether two lines exclude each other where danger is greatest: the one long and early, the other short and late, or the other
 * way round. Most pairs do not, and need not be asked place by place. A doubt may give way to a milder failure as an animal
 * grows, so that where doubts exclude, every place is asked.
 */
function mayClash(ground: Ground, one: Line, other: Line): boolean {
  if (ground.stock.settings.whenUncertain === 'exclude') return true;
  const last = placesOf(ground) - 1;
  const strong = (line: Line): Place => ({ length: Math.max(0, line.lengthsCm.length - 1), position: 0 });
  const weak: Place = { length: 0, position: last };
  // Numbers beyond those of the tables above.
  const table = ground.lines.length * (ground.lines.length + one.index) + other.index;
  return answered(ground, table, 1, 0, () =>
    [
      [strong(one), weak],
      [weak, strong(other)],
    ].some(([own, others]) => meetingOf(ground, animalAt(ground, one, own as Place), animalAt(ground, other, others as Place)).excludes),
  );
}

/** Whether a line at its place is ruled out by a resident, or rules out one. */
export function clashWithResidents(ground: Ground, line: Line, place: Place): boolean {
  const places = placesOf(ground);
  return answered(ground, -1 - line.index, 3 * places, place.length * places + place.position, () =>
    ground.stock.animals.some((resident) => meetingOf(ground, resident, animalAt(ground, line, place)).excludes),
  );
}
