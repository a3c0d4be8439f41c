import type { Problem, Situation, StudyOutput } from '@commensal/schema';
import { type Asked as RuleAsked, askedUnder } from '../../check/check.js';
import { planInSteps } from '../../plan/plan.js';
import { LEVELS } from '../../rules/levels.js';
import { peakAmmonia } from '../../rules/nitrogen/index.js';
import { missingRock } from '../../rules/rock-crowding.js';
import type { AnyRule } from '../../rules/rule.js';
import type { Library } from '../../stock/library.js';
import type { Stock } from '../../stock/stock.js';
import { stockOf } from '../../stock/stock-of.js';
import type { Column } from '../study/column.js';
import type { Variable } from '../study/variable.js';
import { type Asked, type Asking, askedFor, daysAfter, OUTCOMES } from './outputs.js';
import { scenarioOf } from './scenario-of.js';
import { copyOf, type Slot, slotsWhere } from './slots.js';
import { targetProblems } from './target-problems.js';

/** What computes the outputs of scenarios. */
export interface Evaluator {
  readonly columns: readonly Column[];
  readonly problems: readonly Problem[];
  /** Outputs of the scenario with these values of the variables; they go to `into` from position `at`. */
  readonly evaluate: (values: Float64Array, into: Float64Array, at: number) => void;
}

/** How many combinations of words and whole numbers are kept ready at a time. */
const MOST_LAYOUTS = 256;

/**
 * Computes what a study measures, scenario by scenario, by the rules' own `measure` and `judge`: the outcomes are those of `check` on `scenarioOf`.
 *
 * A situation is resolved once for each combination of words and whole numbers. Numbers that reach the stock as they are get written into a copy of it;
 * where one is converted on its way, the documents are resolved anew in every scenario. A rule that reads nothing of what varies is a function of the
 * rest, so it is judged once: which rules those are is seen by letting each run on a stock that tells what is read. Nothing in core remembers anything by
 * animal or stock, which makes it safe to write into one.
 */
export function evaluatorOf(
  situation: Situation,
  library: Library,
  rules: readonly AnyRule[],
  variables: readonly Variable[],
  outputs: readonly StudyOutput[],
): Evaluator {
  const wishable = [
    ...new Set([
      ...(situation.wishes ?? []).map(({ species }) => species),
      ...variables.flatMap(({ at, words }) => (at.some((place) => place.startsWith('/situation/wishes/')) ? (words ?? []) : [])),
    ]),
  ];
  const asked = askedFor(outputs, situation, rules, wishable);
  const needsCheck = variables.some((variable) => !variable.isPositive && variable.words === undefined && isMeasured(variable));
  const valid: Column[] = needsCheck
    ? [
        {
          name: 'valid',
          kind: 'integer',
          unit: '1',
          of: 'output',
          description: '0 where a figure came out that cannot be, such as a length below nothing: then nothing else is told.',
        },
      ]
    : [];
  const problems = [...targetProblems(situation, library, variables), ...asked.problems];
  const width = asked.columns.length;
  const columns = [...valid, ...asked.columns];
  if (problems.length > 0) return { columns, problems, evaluate: () => undefined };

  const inKey = variables.map(({ words, isWhole }) => words !== undefined || isWhole);
  const layouts = new Map<string, Layout>();
  const layoutFor = (values: Float64Array): Layout => {
    const key = keyOf(values, inKey);
    const known = layouts.get(key);
    if (known !== undefined) return known;
    if (layouts.size >= MOST_LAYOUTS) layouts.clear();
    const made = layoutOf(situation, library, rules, variables, inKey, values, asked);
    layouts.set(key, made);
    return made;
  };
  let last: Layout | undefined;
  const hasKey = inKey.includes(true);
  return {
    columns,
    problems,
    evaluate: (values, into, at) => {
      let to = at;
      if (needsCheck) {
        const isValid = variables.every(
          (variable, index) => variable.words !== undefined || !isMeasured(variable) || (values[index] as number) > 0,
        );
        into[to] = isValid ? 1 : 0;
        to += 1;
        if (!isValid) {
          into.fill(Number.NaN, to, to + width);
          return;
        }
      }
      if (hasKey || last === undefined) last = layoutFor(values);
      last(values, into, to);
    },
  };
}

/** Lengths, volumes and the like are above 0; temperatures and days need not be. */
const isMeasured = ({ unit }: Variable): boolean => unit !== undefined && unit !== 'd' && unit !== 'Cel' && unit !== '[degF]';

function keyOf(values: Float64Array, inKey: readonly boolean[]): string {
  let key = '';
  for (let at = 0; at < inKey.length; at += 1) if (inKey[at] === true) key += `${values[at]},`;
  return key;
}

type Layout = (values: Float64Array, into: Float64Array, at: number) => void;

/** What one combination of words and whole numbers makes ready. */
function layoutOf(
  situation: Situation,
  library: Library,
  rules: readonly AnyRule[],
  variables: readonly Variable[],
  inKey: readonly boolean[],
  first: Float64Array,
  asked: Asked,
): Layout {
  const resolved = (values: Float64Array): Stock => {
    const scenario = scenarioOf(situation, library, variables, values);
    return stockOf(scenario.situation, scenario.library).stock;
  };
  const slotsIn = (stock: Stock): (Slot[] | undefined)[] =>
    variables.map((_, index) => (inKey[index] === true ? [] : slotsOf(stock, resolved, first, index)));
  const scratch = copyOf(resolved(first));
  const slots = slotsIn(scratch);
  const inPlace = slots.every((places) => places !== undefined) ? (slots as readonly Slot[][]) : undefined;
  const width = asked.columns.length;
  const parts = partsOf(scratch, asked);
  // Places that tell make objects slow: they are put into a copy of their own.
  const probe = copyOf(scratch);
  const varying = inPlace === undefined ? parts : parts.filter((part) => readsAny(probe, part, slotsIn(probe) as readonly Slot[][], width));
  const constant = new Float64Array(width).fill(Number.NaN);
  for (const part of parts) part.measure(scratch, constant, 0);
  for (const rule of asked.byRule.keys())
    if (scratch.settings.off.includes(rule.id)) untested(asked.byRule.get(rule) as readonly Asking[], constant);
  const plans = asked.bestSet === undefined && asked.chosen === undefined ? undefined : asked;
  return (values, into, at) => {
    into.set(constant, at);
    let stock: Stock = scratch;
    if (inPlace === undefined) stock = resolved(values);
    else {
      for (let index = 0; index < inPlace.length; index += 1) {
        for (const { holder, key } of inPlace[index] as Slot[]) holder[key] = values[index];
      }
    }
    for (const part of varying) part.measure(stock, into, at);
    if (plans !== undefined) {
      const scenario = scenarioOf(situation, library, variables, values);
      tellPlan(scenario.situation, scenario.library, rules, plans, stock.day, into, at);
    }
  };
}

/** Two values near the first, to see where they arrive. */
function slotsOf(scratch: Stock, resolved: (values: Float64Array) => Stock, first: Float64Array, index: number): Slot[] | undefined {
  const value = first[index] as number;
  const probes = [value * 1.0009765625 + 0.001953125, value * 1.001953125 + 0.00390625].map((probe) => {
    const values = Float64Array.from(first);
    values[index] = probe;
    return { probe, stock: resolved(values) };
  });
  const [one, other] = probes as [(typeof probes)[number], (typeof probes)[number]];
  return slotsWhere(scratch, one.stock, other.stock, one.probe, other.probe);
}

/** Something that is measured on a stock and goes to some columns. */
interface Part {
  readonly measure: (stock: Stock, into: Float64Array, at: number) => void;
}

function partsOf(stock: Stock, { byRule, missingRock: rockColumn, peakAmmonia: ammoniaColumn }: Asked): Part[] {
  const parts = askedUnder(stock, [...byRule.keys()]).map((one) => partOf(one, byRule.get(one.rule) as readonly Asking[]));
  const figure = (column: number | undefined, of: (stock: Stock) => number | undefined): Part[] =>
    column === undefined
      ? []
      : [
          {
            measure: (measured, into, at) => {
              into[at + column] = of(measured) ?? Number.NaN;
            },
          },
        ];
  return [...parts, ...figure(rockColumn, missingRock), ...figure(ammoniaColumn, peakAmmonia)];
}

/** Whether a part reads one of the places that vary: they are replaced by ones that tell. */
function readsAny(probe: Stock, part: Part, slots: readonly Slot[][], width: number): boolean {
  let isRead = false;
  const places = slots.flat();
  const before = places.map(({ holder, key }) => holder[key]);
  places.forEach(({ holder, key }, index) => {
    Object.defineProperty(holder, key, {
      configurable: true,
      enumerable: true,
      get: () => {
        isRead = true;
        return before[index];
      },
    });
  });
  try {
    part.measure(probe, new Float64Array(width), 0);
  } finally {
    places.forEach(({ holder, key }, index) => {
      Object.defineProperty(holder, key, { configurable: true, enumerable: true, writable: true, value: before[index] });
    });
  }
  return isRead;
}

/** One rule, with all that is asked of it. */
function partOf({ rule, options }: RuleAsked, askings: readonly Asking[]): Part {
  const worst = askings.map(() => ({ outcome: 0, level: -1, first: Number.POSITIVE_INFINITY }));
  const needsTelling = askings.some(({ what, subjects }) => what === 'first-failure' || subjects.length > 0);
  return {
    measure: (stock, into, at) => {
      for (const one of worst) {
        one.outcome = 0;
        one.level = -1;
        one.first = Number.POSITIVE_INFINITY;
      }
      rule.measure(stock, options, (measure) => {
        const verdict = rule.judge(measure, options);
        const outcome = OUTCOMES.indexOf(verdict.outcome);
        const level = LEVELS.indexOf(verdict.level);
        const isFinding = outcome >= 2;
        const telling = needsTelling && isFinding ? rule.tell(measure, verdict, stock, options) : undefined;
        askings.forEach(({ what, subjects, from }, index) => {
          const one = worst[index] as (typeof worst)[number];
          if (what === 'outcome') {
            // Of some animals only findings tell: what passed names nobody.
            if (subjects.length > 0 && isFinding && !names(telling, subjects)) return;
            if (outcome > one.outcome) {
              one.outcome = outcome;
              one.level = isFinding ? level : -1;
            } else if (outcome === one.outcome && isFinding && level > one.level) one.level = level;
          } else if (outcome === 3 && level >= from && telling !== undefined && telling.when !== null && names(telling, subjects)) {
            one.first = Math.min(one.first, telling.when - stock.day);
          }
        });
      });
      askings.forEach(({ what, column }, index) => {
        const one = worst[index] as (typeof worst)[number];
        if (what === 'outcome') {
          into[at + column] = one.outcome;
          into[at + column + 1] = one.level < 0 ? Number.NaN : one.level;
        } else into[at + column] = one.first === Number.POSITIVE_INFINITY ? Number.NaN : one.first;
      });
    },
  };
}

const names = (telling: { readonly subjects: readonly { readonly id: string }[] } | undefined, ids: readonly string[]): boolean =>
  ids.every((id) => telling?.subjects.some((subject) => subject.id === id) === true);

function untested(askings: readonly Asking[], into: Float64Array): void {
  for (const { what, column } of askings) if (what === 'outcome') into[column] = OUTCOMES.indexOf('untested');
}

function tellPlan(
  situation: Situation,
  library: Library,
  rules: readonly AnyRule[],
  asked: Asked,
  day: number,
  into: Float64Array,
  at: number,
): void {
  const { chosen, introductions, proven, worth } = planInSteps(situation, library, rules).choice;
  const { bestSet } = asked;
  if (bestSet !== undefined) {
    into[at + bestSet] = chosen.reduce((sum, { count }) => sum + count, 0);
    into[at + bestSet + 1] = worth.priority;
    into[at + bestSet + 2] = proven ? 1 : 0;
    into[at + bestSet + 3] = introductions.reduce(
      (latest, { date }) => Math.max(Number.isNaN(latest) ? daysAfter(date, day) : latest, daysAfter(date, day)),
      Number.NaN,
    );
  }
  asked.chosen?.species.forEach((species, index) => {
    into[at + (asked.chosen?.column ?? 0) + index] = chosen
      .filter((one) => one.species === species)
      .reduce((sum, { count }) => sum + count, 0);
  });
}
