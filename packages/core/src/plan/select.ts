import { arrange, type Arrangement } from './arrange.js';
import { capacityRules, checkWith, excludes, type Ground, lastDay, meetings } from './ground.js';
import { type Line, newcomerFrom, type Pick } from './line.js';

/** The best set found, and how sure it is. */
export interface Selection {
  readonly arrangement: Arrangement;
  readonly proven: boolean;
  /** Priority by which a better set could at most be better. */
  readonly gap: number;
}

/** Most checks spent on one plan; what is then not proven is said. */
export const MOST_CHECKS = 60_000;

/** A number of one line's animals, as a vertex of the search. */
type Option = Pick;

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
export function selectBest(ground: Ground, mostChecks: number = MOST_CHECKS): Selection {
  const options = ground.lines.map((line) => optionsOf(ground, line));
  const conflict = conflictsBetween(ground, options.flat());
  let best: { arrangement: Arrangement; score: Score } | undefined;
  let open = 0;

  const bound = (from: number, chosen: readonly Option[]): number => cliqueBound(options.slice(from), chosen, conflict);
  const descend = (at: number, chosen: readonly Option[], priority: number): void => {
    const limit = priority + bound(at, chosen);
    if (best !== undefined && limit < best.score.priority) return;
    if (ground.spent.checks > mostChecks && best !== undefined) {
      open = Math.max(open, limit);
      return;
    }
    if (at === options.length) {
      weigh(chosen, priority);
      return;
    }
    for (const option of options[at] as readonly Option[]) {
      if (chosen.some((other) => conflict(other, option))) continue;
      const next = [...chosen, option];
      if (overfull(ground, next)) continue;
      descend(at + 1, next, priority + option.line.wish.priority);
    }
    descend(at + 1, chosen, priority);
  };
  const weigh = (chosen: readonly Option[], priority: number): void => {
    const score: Score = { priority, animals: chosen.reduce((sum, option) => sum + option.count, 0) };
    if (best !== undefined && worth(score, best.score) < 0) return;
    const arrangement = arrange(ground, chosen);
    if (arrangement.excluding.length > 0) return;
    if (best === undefined || worth(score, best.score) > 0 || preferred(arrangement, best.arrangement)) best = { arrangement, score };
  };
  descend(0, [], 0);

  const found = best ?? { arrangement: arrange(ground, []), score: { priority: 0, animals: 0 } };
  const gap = Math.max(0, open - found.score.priority);
  return { arrangement: found.arrangement, proven: open === 0, gap };
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
function optionsOf(ground: Ground, line: Line): Option[] {
  const options: Option[] = [];
  for (let count = line.wish.most; count >= line.wish.least; count -= 1) {
    if (worksAlone(ground, { line, count })) options.push({ line, count });
  }
  return options;
}

/** Whether a pick can be in the tank with the residents at all. */
function worksAlone(ground: Ground, pick: Pick): boolean {
  const ids = new Set([pick.line.id]);
  const lengths = pick.line.lengthsCm.length === 0 ? [undefined] : [pick.line.lengthsCm[0], pick.line.lengthsCm.at(-1)];
  const keys = [ground.startDay, lastDay(ground)]
    .flatMap((day) => lengths.map((length) => [newcomerFrom(pick, day, length)]))
    .map((animals) => excludingKeys(ground, animals, ids));
  return !sharedByAll(keys);
}

const excludingKeys = (ground: Ground, animals: Parameters<typeof checkWith>[1], ids: ReadonlySet<string>): Set<string> =>
  new Set(
    checkWith(ground, animals)
      .findings.filter((finding) => excludes(ground, finding, ids))
      .map((finding) => finding.key),
  );

/** Whether one finding stands however the animals meet. */
const sharedByAll = (sets: readonly ReadonlySet<string>[]): boolean => [...(sets[0] ?? [])].some((key) => sets.every((set) => set.has(key)));

/** Which options cannot be together, however they meet. */
function conflictsBetween(ground: Ground, options: readonly Option[]): (one: Option, other: Option) => boolean {
  const known = new Map<string, boolean>();
  const name = (option: Option): string => `${option.line.id} ${option.count}`;
  const judge = (one: Option, other: Option): boolean => {
    const ids = new Set([one.line.id, other.line.id]);
    return sharedByAll(meetings(ground, one, other).map((animals) => excludingKeys(ground, animals, ids)));
  };
  for (const one of options) {
    for (const other of options) {
      if (name(one) < name(other)) known.set(`${name(one)} ${name(other)}`, one.line.id === other.line.id || judge(one, other));
    }
  }
  return (one, other) => {
    const [first, second] = name(one) < name(other) ? [one, other] : [other, one];
    return known.get(`${name(first)} ${name(second)}`) ?? true;
  };
}

/**
 * Most priority that the wishes still open can add: wishes whose options all exclude each other count once, for the one
 * worth most.
 */
function cliqueBound(open: readonly (readonly Option[])[], chosen: readonly Option[], conflict: (one: Option, other: Option) => boolean): number {
  const cliques: Option[][] = [];
  let bound = 0;
  for (const options of open) {
    const possible = options.filter((option) => chosen.every((other) => !conflict(other, option)));
    const [first] = possible;
    if (first === undefined) continue;
    const clique = cliques.find((members) => members.every((member) => possible.every((option) => conflict(member, option))));
    if (clique === undefined) {
      // Wishes come by falling priority, so the first of a clique is its dearest.
      bound += first.line.wish.priority;
      cliques.push([...possible]);
    } else {
      clique.push(...possible);
    }
  }
  return bound;
}

/** Whether a sum that only grows is over its limit already, with everything as small and late as it can be. */
function overfull(ground: Ground, picks: readonly Pick[]): boolean {
  const rules = capacityRules(ground);
  if (rules.length === 0) return false;
  const late = lastDay(ground);
  const ids = new Set(picks.map((pick) => pick.line.id));
  return checkWith(
    ground,
    picks.map((pick) => newcomerFrom(pick, late, pick.line.lengthsCm[0])),
    rules,
  ).findings.some((finding) => excludes(ground, finding, ids));
}
