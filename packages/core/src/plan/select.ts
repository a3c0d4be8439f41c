import { arrange, type Arrangement } from './arrange.js';
import { type Meeting, placesToMeet } from './places.js';
import { conflictsBetween } from './conflicts.js';
import { clashWithResidents, placesFor } from './clashes.js';
import { capacityRules, eitherWayRules, excludesForGood, findingsWith, type Ground, lastDay, lastingRules } from './ground.js';
import { everyLength, type Line, newcomerFrom, type Pick } from './line.js';
import { isVendors } from '../rules/ids.js';

/** The best set found, and how sure it is. */
export interface Selection {
  readonly arrangement: Arrangement;
  readonly proven: boolean;
  /** Priority by which a better set could at most be better. */
  readonly gap: number;
}

/** Most work spent on one plan; what is then not proven is said. */
export const MOST_WORK = 80_000;

/** Sum of priorities, then number of animals. */
interface Score {
  readonly priority: number;
  readonly animals: number;
}

/**
 * The set of wishes worth most under the rules: the sum of priorities counts first, then the number of animals, then the
 * fewest doubts about errors, the fewest warnings, the lowest species ids. Branch and bound over wishes: pairs and single
 * wishes that fail however they meet are left out beforehand, sums of capacity rules cut early, and every full set is
 * arranged and checked as a whole.
 */
export function selectBest(ground: Ground, mostWork: number = MOST_WORK): Selection {
  const options = ground.lines.map((line) => optionsOf(ground, line));
  const conflict = conflictsBetween(ground);
  let best: { arrangement: Arrangement; score: Score } | undefined;
  /** The most priority of anything that was not looked into to the end. */
  let open = Number.NEGATIVE_INFINITY;

  const descend = (at: number, chosen: readonly Pick[], score: Score): void => {
    const { priority, animals } = mostOf(options, at, chosen, conflict);
    const limit: Score = { priority: score.priority + priority, animals: score.animals + animals };
    if (best !== undefined && worth(limit, best.score) < 0) return;
    const batches = batchesAtMost(options, at, chosen, conflict);
    const meeting = placesToMeet(ground, chosen, batches);
    if (meeting.places === undefined && meeting.decided) return;
    if (overfull(ground, chosen, meeting, batches)) return;
    if (ground.spent.work > mostWork && best !== undefined) {
      open = Math.max(open, limit.priority);
      return;
    }
    const wish = options[at];
    if (wish === undefined) {
      weigh(chosen, score);
      return;
    }
    for (const option of wish) {
      if (chosen.some((other) => conflict(other.line, option.line))) break;
      const next = [...chosen, option];
      descend(at + 1, next, { priority: score.priority + option.line.wish.priority, animals: score.animals + option.count });
    }
    descend(at + 1, chosen, score);
  };
  const weigh = (chosen: readonly Pick[], score: Score): void => {
    const arrangement = arrange(ground, chosen);
    if (arrangement.excluding.length > 0) {
      if (!arrangement.decided) open = Math.max(open, score.priority);
      return;
    }
    if (best === undefined || worth(score, best.score) > 0 || preferred(arrangement, best.arrangement)) best = { arrangement, score };
  };
  descend(0, [], { priority: 0, animals: 0 });

  const found = best ?? { arrangement: arrange(ground, []), score: { priority: 0, animals: 0 } };
  return { arrangement: found.arrangement, proven: open < found.score.priority, gap: Math.max(0, open - found.score.priority) };
}

const worth = (one: Score, other: Score): number => one.priority - other.priority || one.animals - other.animals;

/** Between sets of equal worth. */
function preferred(one: Arrangement, other: Arrangement): boolean {
  if (one.doubts !== other.doubts) return one.doubts < other.doubts;
  if (one.warnings !== other.warnings) return one.warnings < other.warnings;
  const ids = (arrangement: Arrangement): string =>
    arrangement.picks
      .map((pick) => pick.line.id)
      .sort()
      .join(' ');
  return ids(one) < ids(other);
}

/** The numbers of a wish that work by themselves beside the residents; the largest first. */
function optionsOf(ground: Ground, line: Line): Pick[] {
  const options: Pick[] = [];
  for (let count = line.wish.most; count >= line.wish.least; count -= 1) {
    if (worksAlone(ground, { line, count })) options.push({ line, count });
  }
  return options;
}

/**
 * Whether a pick can be in the tank with the residents at all: no error stands at its shortest and its longest, early and
 * late. Between them these hold the safest meeting with every resident, as swallower and as prey, and the smallest claim.
 */
function worksAlone(ground: Ground, pick: Pick): boolean {
  const ids = new Set([pick.line.id]);
  const every = everyLength(pick.line);
  // Of a rule of others it is not known that what fails at both ends fails between them.
  const lengths = ground.rules.some(({ id }) => isVendors(id)) ? every : [every[0], every.at(-1)];
  let standing: Map<string, string> | undefined;
  for (const day of [ground.startDay, lastDay(ground)]) {
    for (const length of lengths) {
      const found = findingsWith(ground, [newcomerFrom(pick, day, length)], lastingRules(ground)).filter((finding) =>
        excludesForGood(ground, finding, ids),
      );
      const before = standing;
      standing = new Map(found.filter(({ key }) => before?.has(key) ?? true).map(({ key, rule }) => [key, rule]));
      if (standing.size === 0) return true;
    }
  }
  // Where the even contest is the worst, neither end need be the safest.
  const isEitherWay = (rule: string): boolean => eitherWayRules(ground).some(({ id }) => id === rule);
  return (
    [...(standing ?? new Map<string, string>()).values()].every(isEitherWay) &&
    placesFor(ground, pick).some((place) => !clashWithResidents(ground, pick, place))
  );
}

/**
 * Most priority and animals that the wishes still open can add: wishes that all exclude each other count once, for the one
 * worth most and for the one with the most animals.
 */
function mostOf(
  options: readonly (readonly Pick[])[],
  from: number,
  chosen: readonly Pick[],
  conflict: (one: Line, other: Line) => boolean,
): Score {
  const cliques: { lines: Line[]; priority: number; animals: number }[] = [];
  for (let at = from; at < options.length; at += 1) {
    const largest = options[at]?.[0];
    if (largest === undefined || chosen.some((other) => conflict(other.line, largest.line))) continue;
    const { line, count } = largest;
    const clique = cliques.find(({ lines }) => lines.every((member) => conflict(member, line)));
    if (clique === undefined) {
      cliques.push({ lines: [line], priority: line.wish.priority, animals: count });
    } else {
      clique.lines.push(line);
      clique.priority = Math.max(clique.priority, line.wish.priority);
      clique.animals = Math.max(clique.animals, count);
    }
  }
  return {
    priority: cliques.reduce((sum, clique) => sum + clique.priority, 0),
    animals: cliques.reduce((sum, clique) => sum + clique.animals, 0),
  };
}

/** Batches that what is chosen and what may still be chosen would make. */
function batchesAtMost(
  options: readonly (readonly Pick[])[],
  from: number,
  chosen: readonly Pick[],
  conflict: (one: Line, other: Line) => boolean,
): number {
  const open = options
    .slice(from)
    .flatMap((wish) => wish[0] ?? [])
    .filter((option) => !chosen.some((other) => conflict(other.line, option.line)));
  return new Set([...chosen, ...open].map((pick) => pick.line.batch)).size;
}

/** Whether a sum that only grows is over its limit already, with everything as small and late as it can be. */
function overfull(ground: Ground, picks: readonly Pick[], { latest }: Meeting, batches: number): boolean {
  const ids = new Set(picks.map((pick) => pick.line.id));
  const newcomers = picks.map((pick) => {
    const position = latest.get(pick.line.id) ?? batches - 1;
    return newcomerFrom(pick, ground.startDay + position * ground.gapDays, pick.line.lengthsCm[0]);
  });
  return findingsWith(ground, newcomers, capacityRules(ground)).some((finding) => excludesForGood(ground, finding, ids));
}
