import type { Finding, Situation } from '@commensal/schema';
import { check, type Checked, isError } from '../check/check.js';
import { entryGap } from '../rules/entry-gap.js';
import { entryOrder } from '../rules/entry-order.js';
import { type AnyRule, optionsOf } from '../rules/rule.js';
import type { Library } from '../stock/library.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { inEntryOrder, stockOf } from '../stock/stock-of.js';
import { type Line, linesOf, newcomerFrom, type Pick } from './line.js';

/** What planning stands on: the tank as it is, the wishes, the rules. */
export interface Ground {
  readonly situation: Situation;
  readonly stock: Stock;
  readonly lines: readonly Line[];
  readonly rules: readonly AnyRule[];
  /** First day on which anything may go in. */
  readonly startDay: number;
  readonly gapDays: number;
  readonly pugnaciousToOthers: number;
  readonly pugnaciousToNewcomers: number;
  /** Number of checks made so far, against which the search is limited. */
  readonly spent: { checks: number };
  /** Whether two picks at lengths on days exclude each other, as found so far. */
  readonly clashes: Map<string, boolean>;
}

/** Lays the ground for a plan. Introductions that stand in the situation are kept as they are. */
export function groundOf(situation: Situation, library: Library, rules: readonly AnyRule[]): Ground {
  const { stock } = stockOf(situation, library);
  const { gapDays } = optionsOf(entryGap, stock);
  const lastEntry = Math.max(...stock.animals.map((animal) => animal.entryDay ?? Number.NEGATIVE_INFINITY), Number.NEGATIVE_INFINITY);
  return {
    situation,
    stock,
    lines: linesOf(
      stock.wishes,
      stock.animals.map((animal) => animal.id),
    ),
    rules,
    startDay: Math.max(stock.day, stock.tank.cycledDay ?? stock.day, lastEntry + gapDays),
    gapDays,
    ...optionsOf(entryOrder, stock),
    spent: { checks: 0 },
    clashes: new Map(),
  };
}

/** The tank with more animals in it. */
export function stockWith(ground: Ground, newcomers: readonly StockAnimal[]): Stock {
  return { ...ground.stock, animals: inEntryOrder([...ground.stock.animals, ...newcomers]) };
}

/** What check says of the tank with more animals in it. */
export function checkWith(ground: Ground, newcomers: readonly StockAnimal[], rules: readonly AnyRule[] = ground.rules): Checked {
  ground.spent.checks += 1;
  return check(stockWith(ground, newcomers), rules);
}

/** Whether a finding rules out a set: an error, or a doubt about one where the settings say so, that involves a newcomer. */
export function excludes(ground: Ground, finding: Finding, newcomers: ReadonlySet<string>): boolean {
  const counts =
    isError(finding) ||
    (ground.stock.settings.whenUncertain === 'exclude' && finding.outcome === 'cantTell' && finding.level === 'error' && finding.accepted === undefined);
  return counts && finding.subjects.some((subject) => newcomers.has(subject.id));
}

/** The rules whose findings hang on who meets whom, when and at what length. */
export const meetingRules = (ground: Ground): readonly AnyRule[] => ground.rules.filter((rule) => rule.planning === 'pair');

/** The rules whose sums only grow with more animals. */
export const capacityRules = (ground: Ground): readonly AnyRule[] => ground.rules.filter((rule) => rule.planning === 'capacity');

/** Last day that planning thinks of for an entry: every wish in a batch of its own. */
export const lastDay = (ground: Ground): number => ground.startDay + ground.gapDays * Math.max(0, ground.lines.length - 1);

/** The ways a pair can meet that between them hold the safest for every rule that asks for time and length. */
export function meetings(ground: Ground, one: Pick, other: Pick): StockAnimal[][] {
  const early = ground.startDay;
  const late = lastDay(ground);
  const at = (pick: Pick, day: number, long: boolean): StockAnimal => newcomerFrom(pick, day, long ? pick.line.lengthsCm.at(-1) : pick.line.lengthsCm[0]);
  return [
    [at(one, early, true), at(other, late, false)],
    [at(one, late, false), at(other, early, true)],
    [at(one, late, false), at(other, late, false)],
  ];
}
