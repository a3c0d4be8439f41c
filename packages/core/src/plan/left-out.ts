import type { Change, Finding, LeftOut } from '@commensal/schema';
import type { Library } from '../stock/library.js';
import { arrange, type Arrangement } from './arrange.js';
import { type Fits, fitting, whatCanStay } from './fits.js';
import { type Ground, groundOf } from './ground.js';
import { entriesOf, inserted } from './insert.js';
import { type ChosenSet, letsIn } from './lets-in.js';
import type { Line, Pick } from './line.js';
import { minimalConflict } from './minimal-conflict.js';
import { possibleChanges } from './possible-changes.js';
import { changesTogether } from './together.js';

/** Why each wish that was not granted was left out, and which changes would let it in beside what was chosen. */
export function leftOutOf(ground: Ground, library: Library, arrangement: Arrangement): LeftOut[] {
  const chosen: ChosenSet = { picks: arrangement.picks, entries: entriesOf(arrangement) };
  const granted = new Set(chosen.picks.map((pick) => pick.line.id));
  const whether = groundOf(ground.situation, library, ground.rules, true);
  const fits = fitting(whether);
  const inWishOrder = ground.stock.wishes.map((wish) => ground.lines.find((line) => line.wish === wish) as Line);
  return inWishOrder.filter((line) => !granted.has(line.id)).map((line) => leftOut(ground, library, fits, chosen, line));
}

function leftOut(ground: Ground, library: Library, fits: Fits, chosen: ChosenSet, line: Line): LeftOut {
  const pick: Pick = { line, count: line.wish.least };
  const put = inserted(ground, chosen.entries, chosen.picks, pick);
  const beside = put.excluding.length > 0 ? put : arrange(ground, [...chosen.picks, pick]);
  const about = beside.excluding.filter((finding) => isAbout(finding, line.id, ground));
  // What stands in its way by itself comes before what it would do to others.
  const byItself = (finding: Finding): boolean => finding.subjects.length === 1;
  const because = [...about.filter(byItself), ...about.filter((finding) => !byItself(finding))];
  const told = because.length > 0 ? because : [...beside.excluding];
  const { conflict, dropped } = conflictWith(ground, fits, chosen.picks, pick, told);
  const rather = dropped.map((other) => other.line.wish.kind.id);
  const changes: Change[] = [
    ...possibleChanges(ground, told, beside),
    ...(rather.length > 0 ? [{ kind: 'instead-of' as const, species: [...new Set(rather)] as [string, ...string[]] }] : []),
  ];
  const works = (some: readonly Change[]): boolean => letsIn(ground, library, chosen, pick, some);
  const wouldNeed = changes.flatMap((change) => leastOf(change, works) ?? []);
  return {
    species: line.wish.kind.id,
    count: pick.count,
    because: told,
    conflict,
    rather: [...new Set(rather)],
    wouldNeed,
    wouldNeedTogether: wouldNeed.length > 0 ? [] : changesTogether(ground, library, chosen, pick, changes),
  };
}

/** A finding that names the wish, or one on claims that its presence adds to. */
const isAbout = (finding: Finding, id: string, ground: Ground): boolean =>
  finding.subjects.some((subject) => subject.id === id) ||
  ground.rules.some((rule) => rule.id === finding.rule && rule.planning === 'capacity');

/** What the wish cannot be together with, and what would have to go for it: of those that could, the ones wanted least. */
function conflictWith(
  ground: Ground,
  fits: Fits,
  chosen: readonly Pick[],
  pick: Pick,
  because: readonly Finding[],
): { conflict: LeftOut['conflict']; dropped: readonly Pick[] } {
  const named = new Set(because.flatMap(({ subjects }) => subjects.map(({ id }) => id)));
  const residents = ground.stock.animals.flatMap(({ id }) => (named.has(id) ? [id] : []));
  if (fits([], pick) === undefined) return { conflict: { species: [], residents, minimal: true }, dropped: [] };
  const involved = chosen.filter(({ line }) => named.has(line.id));
  const others = chosen.filter((other) => !involved.includes(other));
  // Those that are named first, and of those the least wanted.
  const inOrder = [...others, ...involved];
  const conflict = minimalConflict(inOrder, (some) => fits(some, pick) !== undefined) ?? [];
  const kept = whatCanStay(fits, inOrder, pick) ?? [];
  return {
    conflict: { species: conflict.map(({ line }) => line.wish.kind.id), residents, minimal: true },
    dropped: chosen.filter((other) => !kept.includes(other)),
  };
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
