import { type Ground, lastDay, meetingOf, type Roles } from './ground.js';
import { newcomerFrom, type Pick } from './line.js';

/** An entry length for every line, by its id; undefined where none is known. */
export type Lengths = ReadonlyMap<string, number | undefined>;

/** Lengths to try, the most wanted first; `all` where no others could work any better. */
export interface LengthChoices {
  readonly choices: readonly Lengths[];
  readonly all: boolean;
}

/** Most assignments of lengths that are tried for one set. */
const MOST_CHOICES = 243;

type Tried = (pick: Pick) => readonly (number | undefined)[];

const middle = ({ line }: Pick): number | undefined => line.lengthsCm[Math.floor((line.lengthsCm.length - 1) / 2)];

/** Every line at its middle length: what is asked for where no danger hangs on it. */
const allMiddle = (picks: readonly Pick[]): Lengths => new Map(picks.map((pick) => [pick.line.id, middle(pick)]));

/**
 * The entry lengths worth trying with dangers in view. An animal that others could swallow is bought long, one that could
 * swallow others short; who is both is tried at every length where an error hangs on it. What is in no such danger comes at
 * its middle length.
 */
export function lengthsByDanger(ground: Ground, picks: readonly Pick[]): LengthChoices {
  const { grave, slight } = dangersAmong(ground, picks);
  if (grave.predators.size + grave.prey.size + slight.predators.size + slight.prey.size === 0)
    return { choices: [allMiddle(picks)], all: true };
  // A doubt may give way to a milder failure as an animal grows, so that where doubts exclude no end is the safest.
  const doubtsExclude = ground.stock.settings.whenUncertain === 'exclude';
  const { choices, all } = combinations(picks, (pick) => {
    const { id, lengthsCm } = pick.line;
    const [preyOf, predatorOf] = [grave.prey.has(id), grave.predators.has(id)];
    if ((preyOf && predatorOf) || (doubtsExclude && (preyOf || predatorOf))) return lengthsCm;
    if (preyOf || (!predatorOf && slight.prey.has(id) && !slight.predators.has(id))) return lengthsCm.slice(-1);
    if (predatorOf || (slight.predators.has(id) && !slight.prey.has(id))) return lengthsCm.slice(0, 1);
    return [middle(pick)];
  });
  return { choices: [allMiddle(picks), ...choices], all };
}

/**
 * The same where sums are tight: everything small, and what others could swallow at every length.
 */
export function lengthsByRoom(ground: Ground, picks: readonly Pick[]): LengthChoices {
  const { grave } = dangersAmong(ground, picks);
  const doubtsExclude = ground.stock.settings.whenUncertain === 'exclude';
  return combinations(picks, ({ line }) => (doubtsExclude || grave.prey.has(line.id) ? line.lengthsCm : line.lengthsCm.slice(0, 1)));
}

function combinations(picks: readonly Pick[], tried: Tried): LengthChoices {
  let choices: Map<string, number | undefined>[] = [new Map(allMiddle(picks))];
  let all = true;
  for (const pick of picks) {
    const lengths = tried(pick);
    if (lengths.length === 0) continue;
    if (choices.length * lengths.length > MOST_CHOICES) {
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
