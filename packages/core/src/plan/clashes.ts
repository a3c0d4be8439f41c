import { firstWhere } from '../quantity/first-where.js';
import { dayAt, type Ground, mayExclude, meetingOf, placesFor, placesTried } from './ground.js';
import { newcomerFrom, type Pick } from './line.js';

/** Where a line may be put: which of its entry lengths, and the how-manieth batch it comes in with. */
export interface Place {
  readonly length: number;
  readonly position: number;
}

const placesOf = (ground: Ground): number => Math.max(1, placesFor(ground, ground.mostBatches));

/** A number for a line with so many animals: more of them want more of a refuge. */
const numberOf = (ground: Ground, { line, count }: Pick): number => line.index * ground.mostOfOne + count - 1;
const numbersOf = (ground: Ground): number => ground.lines.length * ground.mostOfOne;

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

/** A line as an animal at its place. */
export const animalAt = (ground: Ground, pick: Pick, { length, position }: Place): ReturnType<typeof newcomerFrom> =>
  newcomerFrom(pick, dayAt(ground, position), pick.line.lengthsCm[length]);

/** Whether two lines exclude each other, each at its place. */
export function clashAt(ground: Ground, one: Pick, place: Place, other: Pick, otherPlace: Place): boolean {
  if (one.line.index > other.line.index) return clashAt(ground, other, otherPlace, one, place);
  if (!mayClash(ground, one, other)) return false;
  if (isOneSided(ground, one, other)) {
    return (
      place.position > latestSafe(ground, one, place.length, other, otherPlace) ||
      otherPlace.position > latestSafe(ground, other, otherPlace.length, one, place)
    );
  }
  const places = placesOf(ground);
  const values = 3 * places;
  const at = (place.length * places + place.position) * values + otherPlace.length * places + otherPlace.position;
  return answered(
    ground,
    numberOf(ground, one) * numbersOf(ground) + numberOf(ground, other),
    values * values,
    at,
    () => meetingOf(ground, animalAt(ground, one, place), animalAt(ground, other, otherPlace)).excludes,
  );
}

/** Whether two lines exclude each other by nothing but rules in which longer and earlier is worse for the one and better for the other. */
const isOneSided = (ground: Ground, one: Pick, other: Pick): boolean =>
  ground.stock.settings.whenUncertain !== 'exclude' &&
  answered(
    ground,
    numbersOf(ground) * (2 * numbersOf(ground) + numberOf(ground, one)) + numberOf(ground, other),
    1,
    0,
    () => !mayExclude(ground, animalAt(ground, one, ANYWHERE), animalAt(ground, other, ANYWHERE)),
  );

const ANYWHERE: Place = { length: 0, position: 0 };

/** As long as it may be and the first to come, and as short and the last. */
const strongestPlace = ({ line }: Pick): Place => ({ length: Math.max(0, line.lengthsCm.length - 1), position: 0 });
const weakestPlace = (ground: Ground): Place => ({ length: 0, position: placesOf(ground) - 1 });

/**
 * The latest position at which a line can come in at a length without being the prey of another at its place: mouths that were there
 * earlier have grown more, so that there is one, found by halving; -1 where there is none.
 */
function latestSafe(ground: Ground, prey: Pick, length: number, predator: Pick, place: Place): number {
  const places = placesOf(ground);
  const values = 3 * places;
  const table = numberOf(ground, prey) * numbersOf(ground) + numberOf(ground, predator);
  let known = ground.latest.get(table);
  if (known === undefined) {
    known = new Int16Array(3 * values);
    ground.latest.set(table, known);
  }
  const at = length * values + place.length * places + place.position;
  const found = known[at] ?? 0;
  if (found !== 0) return found - 2;
  const isSafe = (position: number): boolean => {
    const own = animalAt(ground, prey, { length, position });
    const { excludes, grave } = meetingOf(ground, own, animalAt(ground, predator, place));
    return !excludes || !grave.prey.includes(own.id);
  };
  // A mouth that comes in one place later has grown as much one place later, but for what lies behind the horizon.
  const before = place.position === 0 ? 0 : (known[at - 1] ?? 0);
  const after = known[at + 1] ?? 0;
  const guess = before !== 0 ? before - 1 : after !== 0 && place.position + 1 < places ? after - 3 : undefined;
  const safe = firstUnsafe(places, isSafe, guess) - 1;
  known[at] = safe + 2;
  return safe;
}

/** The first of so many positions that is not safe, looked for beside a guess first: all before it are safe, all after it are not. */
function firstUnsafe(places: number, isSafe: (position: number) => boolean, guess: number | undefined): number {
  const isUnsafe = (position: number): boolean => !isSafe(position);
  if (guess === undefined) return firstWhere(0, places, isUnsafe);
  const near = Math.max(0, Math.min(places, guess + 1));
  if (near > 0 && isUnsafe(near - 1)) return firstWhere(0, near - 1, isUnsafe);
  if (near === places || isUnsafe(near)) return near;
  return firstWhere(near + 1, places, isUnsafe);
}

/**
 * Whether two lines may exclude each other. Where longer and earlier is more dangerous, danger is greatest with the one long and
 * early and the other short and late, or the other way round; other rules are asked with lengths unknown. Most pairs do not, and
 * need not be asked place by place. A doubt may give way to a milder failure as an animal grows, so that where doubts exclude,
 * every place is asked.
 */
export function mayClash(ground: Ground, one: Pick, other: Pick): boolean {
  if (one.line.index > other.line.index) return mayClash(ground, other, one);
  if (ground.stock.settings.whenUncertain === 'exclude') return true;
  const weak = weakestPlace(ground);
  // Numbers beyond those of the tables above.
  const table = numbersOf(ground) * (numbersOf(ground) + numberOf(ground, one)) + numberOf(ground, other);
  return answered(
    ground,
    table,
    1,
    0,
    () =>
      mayExclude(ground, animalAt(ground, one, weak), animalAt(ground, other, weak)) ||
      [
        [strongestPlace(one), weak],
        [weak, strongestPlace(other)],
      ].some(([own, others]) => meetingOf(ground, animalAt(ground, one, own as Place), animalAt(ground, other, others as Place)).excludes),
  );
}

/** Whether a line at its place is ruled out by a resident, or by itself, or rules out one. */
export function clashWithResidents(ground: Ground, pick: Pick, place: Place): boolean {
  if (!mayClashWithResidents(ground, pick)) return false;
  const places = placesOf(ground);
  return answered(ground, -1 - numberOf(ground, pick), 3 * places, place.length * places + place.position, () => {
    const animal = animalAt(ground, pick, place);
    return (
      (pick.count > 1 && meetingOf(ground, animal, animal).excludes) ||
      ground.stock.animals.some((resident) => meetingOf(ground, resident, animal).excludes)
    );
  });
}

/** The same as {@link mayClash}, with residents that stay, and with its own kind. */
export function mayClashWithResidents(ground: Ground, pick: Pick): boolean {
  const leaves = ground.stock.animals.some(({ leaveDay }) => leaveDay !== Number.POSITIVE_INFINITY);
  if (pick.count > 1 || leaves || ground.stock.settings.whenUncertain === 'exclude') return true;
  // Numbers beyond those of the tables above.
  return answered(ground, -1 - numbersOf(ground) - numberOf(ground, pick), 1, 0, () => {
    const ends = [strongestPlace(pick), weakestPlace(ground)].map((place) => animalAt(ground, pick, place));
    return ground.stock.animals.some(
      (resident) =>
        mayExclude(ground, resident, animalAt(ground, pick, ANYWHERE)) || ends.some((end) => meetingOf(ground, resident, end).excludes),
    );
  });
}

/** Whether two lines clash wherever they are put. */
export function clashEverywhere(ground: Ground, one: Pick, other: Pick): boolean {
  const together = one.line.batch === other.line.batch;
  const own = everyPlace(ground, one).filter((place) => !clashWithResidents(ground, one, place));
  const others = everyPlace(ground, other).filter((place) => !clashWithResidents(ground, other, place));
  return own.every((place) =>
    others.every((otherPlace) => (place.position === otherPlace.position) !== together || clashAt(ground, one, place, other, otherPlace)),
  );
}

/** Every place of a line that is tried: its lengths on the days on which a batch may go in. */
export function everyPlace(ground: Ground, { line }: Pick): Place[] {
  const lengths = Math.max(1, line.lengthsCm.length);
  return Array.from({ length: lengths * placesTried(ground) }, (_, at) => ({ length: at % lengths, position: Math.floor(at / lengths) }));
}
