import { type Ground, lastDay, meetingOf, type Roles } from './ground.js';
import { newcomerFrom, type Pick } from './line.js';

/** Which of its entry lengths every line comes in at, by its id. */
export type Lengths = ReadonlyMap<string, number>;

/** Lengths to try, the most wanted first; `all` where no others need be tried. */
export interface LengthChoices {
  readonly choices: readonly Lengths[];
  readonly all: boolean;
}

/** Most assignments of lengths that are tried for one set. */
const MOST_CHOICES = 27;

/** Of many picks fewer: each takes as long as a check of the whole tank. */
const MANY_PICKS = 16;
const CHOICES_OF_MANY = 3;
const MOST_CHOICES_FOR_ROOM = 243;

type Tried = (pick: Pick) => readonly number[];

const everyLength = ({ line }: Pick): number[] => (line.lengthsCm.length === 0 ? [0] : line.lengthsCm.map((_, index) => index));
const middle = ({ line }: Pick): number => Math.max(0, Math.floor((line.lengthsCm.length - 1) / 2));
const longest = ({ line }: Pick): number => Math.max(0, line.lengthsCm.length - 1);

/** Every line at its middle length: what is asked for where no danger hangs on it. */
const allMiddle = (picks: readonly Pick[]): Lengths => new Map(picks.map((pick) => [pick.line.id, middle(pick)]));

/**
 * The entry lengths worth trying with dangers in view. An animal that others could swallow is bought long, one that could
 * swallow others short; who is both is tried at every length where an error hangs on it. What is in no such danger comes at
 * its middle length.
 */
export function lengthsByDanger(ground: Ground, picks: readonly Pick[]): readonly Lengths[] {
  const { grave, slight } = dangersAmong(ground, picks);
  if (grave.predators.size + grave.prey.size + slight.predators.size + slight.prey.size === 0) return [allMiddle(picks)];
  // A doubt may give way to a milder failure as an animal grows, so that where doubts exclude no end is the safest.
  const doubtsExclude = ground.stock.settings.whenUncertain === 'exclude';
  const { choices } = combinations(picks, picks.length > MANY_PICKS ? CHOICES_OF_MANY : MOST_CHOICES, (pick) => {
    const { id } = pick.line;
    const [preyOf, predatorOf] = [grave.prey.has(id), grave.predators.has(id)];
    if ((preyOf && predatorOf) || (doubtsExclude && (preyOf || predatorOf))) return everyLength(pick);
    if (preyOf || (!predatorOf && slight.prey.has(id) && !slight.predators.has(id))) return [longest(pick)];
    if (predatorOf || (slight.predators.has(id) && !slight.prey.has(id))) return [0];
    return [middle(pick)];
  });
  return [allMiddle(picks), ...choices];
}

/**
 * The same where sums are tight: everything small, and what others could swallow at every length.
 */
export function lengthsByRoom(ground: Ground, picks: readonly Pick[]): LengthChoices {
  const { grave } = dangersAmong(ground, picks);
  const doubtsExclude = ground.stock.settings.whenUncertain === 'exclude';
  return combinations(picks, MOST_CHOICES_FOR_ROOM, (pick) => (doubtsExclude || grave.prey.has(pick.line.id) ? everyLength(pick) : [0]));
}

function combinations(picks: readonly Pick[], most: number, tried: Tried): LengthChoices {
  let choices: Map<string, number>[] = [new Map(allMiddle(picks))];
  let all = true;
  for (const pick of picks) {
    const lengths = tried(pick);
    if (choices.length * lengths.length > most) {
      all = false;
      continue;
    }
    choices = choices.flatMap((choice) => lengths.map((length) => new Map(choice).set(pick.line.id, length)));
  }
  return { choices, all };
}

interface RoleSets {
  readonly predators: Set<string>;
  readonly prey: Set<string>;
}

/**
 * Who could swallow whom among residents and picks, at the lengths and days worst for the prey: where it would rule the set
 * out, and where it would warn.
 */
function dangersAmong(ground: Ground, picks: readonly Pick[]): { grave: RoleSets; slight: RoleSets } {
  const grave: RoleSets = { predators: new Set(), prey: new Set() };
  const slight: RoleSets = { predators: new Set(), prey: new Set() };
  const note = (into: RoleSets, { predators, prey }: Roles): void => {
    for (const id of predators) into.predators.add(id);
    for (const id of prey) into.prey.add(id);
  };
  const late = lastDay(ground);
  const longest = picks.map((pick) => newcomerFrom(pick, ground.startDay, pick.line.lengthsCm.at(-1)));
  const shortest = picks.map((pick) => newcomerFrom(pick, late, pick.line.lengthsCm[0]));
  longest.forEach((predator, index) => {
    for (const prey of [...ground.stock.animals, ...shortest.filter((_, at) => at !== index)]) {
      const danger = meetingOf(ground, predator, prey);
      note(grave, danger.grave);
      note(slight, danger.slight);
    }
  });
  for (const prey of shortest) {
    for (const resident of ground.stock.animals) {
      const danger = meetingOf(ground, resident, prey);
      note(grave, danger.grave);
      note(slight, danger.slight);
    }
  }
  return { grave, slight };
}
