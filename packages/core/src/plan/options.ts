import { isError } from '../check/check.js';
import { animalAt, clashWithResidents, everyPlace, type Place } from './clashes.js';
import { excludesForGood, findingsWith, type Ground, lastDayTried } from './ground.js';
import { everyLength, type Line, newcomerFrom, type Pick } from './line.js';
import { isAmong } from './rule-sets.js';

/** Most options of one plan: numbers of wishes, each of which is one. */
export const MOST_OPTIONS = 512;

/** The numbers of a wish that work by themselves beside the residents; the largest first. */
export function optionsFor(ground: Ground, line: Line): Pick[] {
  const options: Pick[] = [];
  for (let count = line.wish.most; count >= line.wish.least; count -= 1) {
    if (worksAlone(ground, { line, count })) options.push({ line, count });
  }
  return options;
}

/**
 * Whether residents alone keep a pick out at every length on every day that is tried, by a rule that more animals never help:
 * in larger sets they do as well.
 */
function isLockedOut(ground: Ground, pick: Pick): boolean {
  const { lockingOut } = ground.sets;
  const isOut = (place: Place): boolean =>
    findingsWith(ground, [animalAt(ground, pick, place)], lockingOut).some(
      (finding) => isError(finding) && finding.subjects.some(({ id }) => id === pick.line.id),
    );
  return lockingOut.length > 0 && everyPlace(ground, pick).every(isOut);
}

/**
 * Whether a pick can be in the tank with the residents at all: no error stands at its shortest and its longest, early and
 * late. Between them these hold the safest meeting with every resident, as swallower and as prey, and the smallest claim.
 */
export function worksAlone(ground: Ground, pick: Pick): boolean {
  const ids = new Set([pick.line.id]);
  const every = everyLength(pick.line);
  // Of a rule of others it is not known that what fails at both ends fails between them.
  const lengths = ground.sets.othersToo ? every : [every[0], every.at(-1)];
  let standing: Map<string, string> | undefined;
  for (const day of [ground.startDay, lastDayTried(ground, pick.line)]) {
    for (const length of lengths) {
      const found = findingsWith(ground, [newcomerFrom(pick, day, length)], ground.sets.lasting).filter((finding) =>
        excludesForGood(ground, finding, ids),
      );
      const before = standing;
      standing = new Map(found.filter(({ key }) => before?.has(key) ?? true).map(({ key, rule }) => [key, rule]));
      if (standing.size === 0) return !isLockedOut(ground, pick);
    }
  }
  // Where the even contest is the worst, neither end need be the safest.
  const isEitherWay = (rule: string): boolean => isAmong(ground.sets.eitherWay, rule);
  return (
    [...(standing ?? new Map<string, string>()).values()].every(isEitherWay) &&
    everyPlace(ground, pick).some((place) => !clashWithResidents(ground, pick, place)) &&
    !isLockedOut(ground, pick)
  );
}
