import { arrange, arrangeAtOnce, type Arrangement } from './arrange.js';
import type { Limit, SetProblem } from './best-set/index.js';
import { conflictsBetween } from './conflicts.js';
import type { Ground } from './ground.js';
import type { Line, Pick } from './line.js';
import { optionsFor } from './options.js';
import { rockLimits } from './rock-limits.js';
import { type Scale, scaleOf } from './worth.js';

/** Wishes as a problem of choice: options with what they are worth, which of them exclude each other, and what they share. */
export interface Field {
  readonly ground: Ground;
  readonly options: readonly Pick[];
  readonly scale: Scale;
  readonly problem: SetProblem;
  /** Whether two wishes exclude each other however they meet. */
  readonly conflict: (one: Line, other: Line) => boolean;
  /** What was found of sets that cannot be, in any company: none that holds one of each of these rows. */
  readonly never: (readonly (readonly number[])[])[];
  /** Options that cannot be together in a set of so many batches or fewer: more would come in later. */
  readonly tooSoon: { readonly numbers: readonly number[]; readonly batches: number }[];
  /** Arrangements by their options. */
  readonly arranged: Map<string, Arrangement>;
}

/** Every number of every wish that works alone is an option. */
export function fieldOf(ground: Ground): Field {
  const options = ground.lines.flatMap((line) => optionsFor(ground, line));
  const numbersOf = (line: Line): number[] => numbersIn(options, line);
  const groups = ground.lines.map(numbersOf).filter((numbers) => numbers.length > 0);
  const conflict = conflictsBetween(ground);
  const conflicts: [number, number][] = [];
  groups.forEach((group, at) => {
    const { line } = options[group[0] as number] as Pick;
    for (const other of groups.slice(at + 1)) {
      if (!conflict(line, (options[other[0] as number] as Pick).line)) continue;
      for (const one of group) for (const two of other) conflicts.push([one, two]);
    }
  });
  const scale = scaleOf(ground);
  return {
    ground,
    options,
    scale,
    conflict,
    problem: {
      values: options.map(scale.valueOf),
      groups,
      conflicts,
      limits: rockLimits(ground, options),
      musts: ground.lines.filter(({ wish }) => wish.must).map(numbersOf),
    },
    never: [],
    tooSoon: [],
    arranged: new Map(),
  };
}

/** The options that are numbers of one wish. */
export const numbersIn = (options: readonly Pick[], line: Line): number[] =>
  options.flatMap((option, number) => (option.line === line ? [number] : []));

/** The problem with what was learnt of it, and with other options that have to be in. */
export function problemOf({ problem, never }: Field, musts: readonly (readonly number[])[] = []): SetProblem {
  const isPair = (rows: readonly (readonly number[])[]): boolean => rows.length === 2;
  const pairs = never
    .filter(isPair)
    .flatMap(([first = [], second = []]) => first.flatMap((one) => second.map((other): [number, number] => [one, other])));
  const larger = never.filter((rows) => !isPair(rows)).map((rows): Limit => atMostAllButOne(problem.values.length, rows));
  return {
    ...problem,
    conflicts: [...problem.conflicts, ...pairs],
    limits: [...problem.limits, ...larger],
    musts: [...problem.musts, ...musts],
  };
}

function atMostAllButOne(count: number, rows: readonly (readonly number[])[]): Limit {
  const uses = Array.from({ length: count }, () => 0);
  for (const number of rows.flat()) uses[number] = 1;
  return { uses, most: rows.length - 1 };
}

/** The arrangement of a set of options, made once; `atOnce` only where it takes no search. */
export function arrangementOf({ ground, options, arranged }: Field, numbers: readonly number[], atOnce: 'at once'): Arrangement | undefined;
export function arrangementOf({ ground, options, arranged }: Field, numbers: readonly number[]): Arrangement;
export function arrangementOf(
  { ground, options, arranged }: Field,
  numbers: readonly number[],
  atOnce?: 'at once',
): Arrangement | undefined {
  const key = numbers.join(' ');
  const known = arranged.get(key);
  if (known !== undefined) return known;
  const picks = picksOf(options, numbers);
  const arrangement = atOnce === undefined ? arrange(ground, picks) : arrangeAtOnce(ground, picks);
  if (arrangement !== undefined) arranged.set(key, arrangement);
  return arrangement;
}

export const picksOf = (options: readonly Pick[], numbers: readonly number[]): Pick[] => numbers.map((number) => options[number] as Pick);
