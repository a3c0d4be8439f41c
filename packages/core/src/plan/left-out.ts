import type { Change, Conflict, Finding, LeftOut } from '@commensal/schema';
import type { Library } from '../stock/library.js';
import { arrange, type Arrangement } from './arrange.js';
import { type Fitting, fittingIn, whatCanStay } from './fits.js';
import type { Ground } from './ground.js';
import { entriesOf } from './insert.js';
import { type ChosenSet, letsIn } from './lets-in.js';
import type { Line, Pick } from './line.js';
import { minimalConflict } from './minimal-conflict.js';
import { insteadOf, possibleChanges } from './possible-changes.js';
import { changesTogether } from './together.js';

/** Work after which changes that only help together are no longer looked for. */
const MOST_WORK_ON_REASONS = 2500;

/** Why each wish that was not granted was left out, and which changes would let it in beside what was chosen. */
export function leftOutOf(ground: Ground, library: Library, arrangement: Arrangement): LeftOut[] {
  const chosen: ChosenSet = { picks: arrangement.picks, entries: entriesOf(arrangement) };
  const granted = new Set(chosen.picks.map((pick) => pick.line.id));
  const fitting = fittingIn(ground, chosen.entries);
  const until = ground.spent.work + MOST_WORK_ON_REASONS;
  const inWishOrder = ground.stock.wishes.map((wish) => ground.lines.find((line) => line.wish === wish) as Line);
  return inWishOrder.filter((line) => !granted.has(line.id)).map((line) => leftOut(ground, library, fitting, chosen, line, until));
}

function leftOut(ground: Ground, library: Library, fitting: Fitting, chosen: ChosenSet, line: Line, until: number): LeftOut {
  const pick: Pick = { line, count: line.wish.least };
  const put = fitting.put(chosen.picks, pick);
  const beside = put.excluding.length > 0 ? put : arrange(ground, [...chosen.picks, pick]);
  const about = beside.excluding.filter((finding) => isAbout(finding, line.id, ground));
  // What stands in its way by itself comes before what it would do to others.
  const byItself = (finding: Finding): boolean => finding.subjects.length === 1;
  const because = [...about.filter(byItself), ...about.filter((finding) => !byItself(finding))];
  const told = because.length > 0 ? because : [...beside.excluding];
  const { conflict, dropped } = conflictWith(ground, fitting, chosen.picks, pick, told);
  const rather = dropped.map((other) => other.line.wish.kind.id);
  const changes: Change[] = [...possibleChanges(ground, told, beside), ...insteadOf(rather)];
  const works = (some: readonly Change[]): boolean => letsIn(ground, library, chosen, pick, some);
  const wouldNeed = changes.flatMap((change) => leastOf(change, works) ?? []);
  return {
    species: line.wish.kind.id,
    count: pick.count,
    because: told,
    conflict,
    rather: [...new Set(rather)],
    wouldNeed,
    wouldNeedTogether: wouldNeed.length > 0 || ground.spent.work > until ? [] : changesTogether(ground, library, chosen, pick, changes),
  };
}

/** A finding that names the wish, or one on claims that its presence adds to. */
const isAbout = (finding: Finding, id: string, ground: Ground): boolean =>
  finding.subjects.some((subject) => subject.id === id) ||
  ground.rules.some((rule) => rule.id === finding.rule && rule.planning === 'capacity');

/** Most chosen wishes of which the smallest part that excludes another is looked for among all. */
const MOST_IN_A_CONFLICT = 12;

/** What the wish cannot be together with, and what would have to go for it: of those that could, the ones wanted least. */
function conflictWith(
  ground: Ground,
  fitting: Fitting,
  chosen: readonly Pick[],
  pick: Pick,
  because: readonly Finding[],
): { conflict: Conflict; dropped: readonly Pick[] } {
  const subjects = new Set(because.flatMap((finding) => finding.subjects.map(({ id }) => id)));
  const residents = ground.stock.animals.flatMap(({ id }) => (subjects.has(id) ? [id] : []));
  const conflictOf = (picks: readonly Pick[], minimal: boolean): Conflict => ({
    species: picks.map(({ line }) => line.wish.kind.id),
    residents,
    minimal,
  });
  if (!fitting.fits([], pick)) return { conflict: conflictOf([], true), dropped: [] };
  const named = chosen.filter(({ line }) => subjects.has(line.id));
  const kept = whatCanStay(fitting, chosen, pick);
  const dropped = kept === undefined ? [] : chosen.filter((other) => !kept.includes(other));
  const fits = (some: readonly Pick[]): boolean => fitting.fits(some, pick);
  const smallest = minimalConflict(named, fits);
  if (smallest !== undefined) return { conflict: conflictOf(smallest, true), dropped };
  const others = chosen.filter((other) => !named.includes(other));
  const among = chosen.length > MOST_IN_A_CONFLICT ? undefined : minimalConflict([...others, ...named], fits);
  return { conflict: conflictOf(among ?? named, among !== undefined), dropped };
}

/** Most times an amount is made larger. */
const MOST_TIMES = 4;

/** A change that works; of rock as little as does, in steps of an eighth of what is missing. */
function leastOf(change: Change, works: (changes: readonly Change[]) => boolean): Change | undefined {
  if (works([change])) return change;
  if (change.kind !== 'more-rock') return undefined;
  let tooLittle = change.massKg;
  for (let times = 1; times <= MOST_TIMES; times += 1) {
    let enough = tooLittle * 2;
    if (!works([{ ...change, massKg: enough }])) {
      tooLittle = enough;
      continue;
    }
    const step = Math.max(1, Math.ceil(tooLittle / 8));
    while (enough - tooLittle > step) {
      const middle = Math.ceil((enough + tooLittle) / 2);
      if (works([{ ...change, massKg: middle }])) enough = middle;
      else tooLittle = middle;
    }
    return { ...change, massKg: enough };
  }
  return undefined;
}
