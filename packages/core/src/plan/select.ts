import type { Equals } from '@commensal/schema';
import { arrangeAtOnce, type Arrangement } from './arrange.js';
import { bestSet, type Said } from './best-set/index.js';
import { cannotBe, fixedFailure } from './cannot-be.js';
import { arrangementOf, type Field, picksOf, problemOf } from './field.js';
import type { Ground } from './ground.js';
import type { Pick } from './line.js';

/** The best set found, and how sure it is. */
export interface Selection {
  /** Undefined where what has to be in cannot be. */
  readonly arrangement: Arrangement | undefined;
  /** Option numbers of the set. */
  readonly numbers: readonly number[];
  readonly proven: boolean;
  /** Priority by which a better set could at most be better. */
  readonly gap: number;
  readonly equals: Equals;
}

/** What is asked of a search. */
export interface Asked {
  /** Besides the wishes that have to be in: of each row at least one option. */
  readonly musts?: readonly (readonly number[])[];
  /** Work after which it stops, counted as the ground counts it. */
  readonly mostWork: number;
  /** Whether sets of equal worth are ranked, or the first is taken. */
  readonly ranked: boolean;
}

/** Most work spent on one plan; what is then not proven is said. */
export const MOST_WORK = 12_000;

/** Part of the work of a plan that each further question takes at most. */
const SHARE_OF_WORK = 0.05;

/** The work after which a further question on a ground is left. */
export const withAShareOf = (mostWork: number, { spent }: Ground): number => spent.work + mostWork * SHARE_OF_WORK;

/** Most sets of equal worth that are weighed against each other. */
const MOST_EQUALS = 40;

/**
 * The set of wishes worth most under the rules: the sum of priorities counts first, then the number of animals, then the
 * fewest doubts about errors, the fewest warnings, the lowest species ids. What excludes each other and what shares the rock is
 * known beforehand; every set worth looking at is arranged and checked as a whole, and one that fails is left out: alone, or with
 * all larger ones where the failure stands in any company.
 */
export function selectBest(field: Field, { musts = [], mostWork, ranked }: Asked): Selection {
  const { ground, options } = field;
  let best: Best | undefined;
  /** The most worth of anything that works or not for all that is known. */
  let open = Number.NEGATIVE_INFINITY;
  let weighed = 0;
  let allEquals = true;

  const numberOf = new Map(options.map((option, number) => [option, number]));
  const numbersOf = (picks: readonly Pick[]): number[] =>
    picks.map((pick) => numberOf.get(pick) as number).sort((one, other) => one - other);
  /** With `orMore` for more animals of a wish as well. */
  const never = (picks: readonly Pick[], orMore = false): (readonly number[])[] => {
    const rows = picks.map((pick) =>
      options.flatMap((other, number) =>
        other === pick || (orMore && other.line === pick.line && other.count > pick.count) ? [number] : [],
      ),
    );
    field.never.push(rows);
    return rows;
  };
  const say = (numbers: readonly number[], value: number): Said => {
    const picks = picksOf(options, numbers);
    const batches = new Set(picks.map(({ line }) => line.batch)).size;
    if (field.tooSoon.some((soon) => batches <= soon.batches && soon.numbers.every((number) => numbers.includes(number))))
      return 'not-this';
    const atOnce = arrangementOf(field, numbers, 'at once');
    const conflict = atOnce === undefined ? cannotBe(field, picks) : undefined;
    if (conflict !== undefined) {
      if (conflict.batches === Number.POSITIVE_INFINITY) return never(conflict.picks, conflict.isSum);
      field.tooSoon.push({ numbers: numbersOf(conflict.picks), batches: conflict.batches });
      return 'not-this';
    }
    const arrangement = atOnce ?? arrangementOf(field, numbers);
    if (arrangement.excluding.length > 0) {
      const failing = fixedFailure(ground, arrangement);
      if (failing !== undefined && failing.length > 0) return never(failing);
      if (!arrangement.decided) open = Math.max(open, value);
      return 'not-this';
    }
    weighed = best === undefined || value > best.value ? 1 : weighed + 1;
    if (best === undefined || value > best.value || preferred(arrangement, best.arrangement)) best = { arrangement, numbers, value };
    return 'taken';
  };
  const ties = (): boolean => {
    if (!ranked) return false;
    const wanted = weighed < MOST_EQUALS && ground.spent.work <= mostWork;
    allEquals &&= wanted;
    return wanted;
  };
  const found = bestSet(problemOf(field, musts), { say, ties, isOver: () => ground.spent.work > mostWork });

  if (best === undefined && !found.proven) best = grown(field, musts);

  const value = best?.value ?? Number.NEGATIVE_INFINITY;
  const proven = found.proven && open <= value;
  return {
    arrangement: best?.arrangement,
    numbers: best?.numbers ?? [],
    proven,
    gap: proven ? 0 : gapOf(field, value, Math.max(open, found.proven ? value : found.bound)),
    equals: { weighed, all: ranked && allEquals && found.proven && open < value },
  };
}

interface Best {
  readonly arrangement: Arrangement;
  readonly numbers: readonly number[];
  readonly value: number;
}

/** Where the search had to stop before anything worked: a set grown option by option, what has to be in first, then what is worth most. */
function grown(field: Field, musts: readonly (readonly number[])[]): Best | undefined {
  const { ground, options, problem, conflict } = field;
  const rows = [...problem.musts, ...musts];
  const isAsked = (number: number): boolean => rows.some((row) => row.includes(number));
  const worthAt = (number: number): number => problem.values[number] ?? 0;
  const order = options
    .map((_, number) => number)
    .sort((one, other) => Number(isAsked(other)) - Number(isAsked(one)) || worthAt(other) - worthAt(one));
  let numbers: number[] = [];
  let arrangement = arrangeAtOnce(ground, []);
  for (const number of order) {
    const { line } = options[number] as Pick;
    if (numbers.some((other) => options[other]?.line === line || conflict((options[other] as Pick).line, line))) continue;
    const more = [...numbers, number].sort((one, other) => one - other);
    const found = arrangeAtOnce(ground, picksOf(options, more));
    if (found !== undefined) [numbers, arrangement] = [more, found];
  }
  if (arrangement === undefined || rows.some((row) => !row.some((number) => numbers.includes(number)))) return undefined;
  return { arrangement, numbers, value: numbers.reduce((sum, number) => sum + worthAt(number), 0) };
}

/** By how much of priority a better set could be better; where priorities are strict no more is told than their sum. */
function gapOf({ ground, scale }: Field, value: number, most: number): number {
  if (ground.stock.settings.priorities === 'strict') return ground.lines.reduce((sum, { wish }) => sum + wish.priority, 0);
  return Math.max(0, scale.priorityOf(most) - scale.priorityOf(Math.max(0, value)));
}

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
