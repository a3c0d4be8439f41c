import type { Problem, Situation, StudyOutput } from '@commensal/schema';
import type { AnyRule } from '../../rules/rule.js';
import type { Library } from '../../stock/library.js';
import type { Column } from '../study/column.js';
import type { Variable } from '../study/variable.js';
import { type Asked, askedFor } from './outputs.js';
import { otherParts, type Part, partsOf } from './parts.js';
import { type Run, runsOf, tellRun } from './runs.js';
import { planPart } from './planned.js';
import { copyOf, isReadBy } from './slots.js';
import type { Stock } from '../../stock/stock.js';
import { targetProblems } from './target-problems.js';
import { type Documents, scenarioIn, stockIn, writingInto } from './writing.js';

/** What computes the outputs of scenarios. */
export interface Evaluator {
  readonly columns: readonly Column[];
  readonly problems: readonly Problem[];
  /** Outputs of the scenario with these values of the variables; they go to `into` from position `at`. */
  readonly evaluate: (values: Float64Array, into: Float64Array, at: number) => void;
}

/** How many combinations of words, counts and days are kept ready; the rest is resolved scenario by scenario, with the same results. */
const MOST_READY = 256;

/** A combination is made ready when it comes up for this time: to make ready takes as long as many scenarios. */
const READY_FROM = 3;

/**
 * Computes what a study measures, scenario by scenario, by the rules' own `measure` and `judge`: the outcomes are those of `check` on `scenarioOf`.
 *
 * A situation is resolved once for each combination of words, counts and days, and the other values are written into a copy of its stock. A rule that
 * reads nothing of what varies is a function of the rest, so it is judged once: which rules those are is seen by letting each run on a stock that tells
 * what is read.
 */
export function evaluatorOf(
  situation: Situation,
  library: Library,
  rules: readonly AnyRule[],
  variables: readonly Variable[],
  outputs: readonly StudyOutput[],
): Evaluator {
  const documents: Documents = { situation, library, variables };
  const asked = askedFor(outputs, situation, rules, wishable(situation, variables));
  const isMeasured = variables.map(mustBePositive);
  const needsCheck = variables.some(({ isPositive }, index) => !isPositive && isMeasured[index] === true);
  const problems = [...targetProblems(situation, library, variables), ...asked.problems];
  const width = asked.columns.length;
  const columns = [...(needsCheck ? [VALID] : []), ...asked.columns];
  if (problems.length > 0) return { columns, problems, evaluate: () => undefined };

  const tell = tellingOf(documents, rules, asked);
  return {
    columns,
    problems,
    evaluate: (values, into, at) => {
      if (!needsCheck) return tell(values, into, at);
      const isValid = isMeasured.every((is, index) => !is || (values[index] as number) > 0);
      into[at] = isValid ? 1 : 0;
      if (isValid) tell(values, into, at + 1);
      else into.fill(Number.NaN, at + 1, at + 1 + width);
    },
  };
}

const VALID: Column = {
  name: 'valid',
  kind: 'integer',
  unit: '1',
  of: 'output',
  description: '0 where a figure came out that cannot be, such as a length below nothing: then nothing else is told.',
};

/** Species that are wished for in some scenario. */
function wishable({ wishes = [] }: Situation, variables: readonly Variable[]): string[] {
  const words = variables.flatMap(({ at, words = [] }) => (at.some((place) => place.startsWith('/situation/wishes/')) ? words : []));
  return [...new Set([...wishes.map(({ species }) => species), ...words])];
}

/** Lengths, volumes and the like are above 0; temperatures and days need not be. */
const mustBePositive = ({ unit, words }: Variable): boolean =>
  words === undefined && unit !== undefined && unit !== 'd' && unit !== 'Cel' && unit !== '[degF]';

/** Words, counts and days decide which animals there are and in which order. */
const isFixed = ({ words, isWhole, unit }: Variable): boolean => words !== undefined || (isWhole && (unit === undefined || unit === 'd'));

type Tell = (values: Float64Array, into: Float64Array, at: number) => void;

function tellingOf(documents: Documents, rules: readonly AnyRule[], asked: Asked): Tell {
  const fixed = documents.variables.map(isFixed);
  const anew = tellingAnew(documents, asked);
  const ready = new Map<string, Tell>();
  const met = new Map<string, number>();
  let made = 0;
  const tellStock = (values: Float64Array): Tell => {
    const key = keyOf(values, fixed);
    const known = ready.get(key);
    if (known !== undefined) return known;
    if (made >= MOST_READY) return anew;
    const times = (met.get(key) ?? 0) + 1;
    if (times < READY_FROM) {
      // What is met seldom is not remembered for ever.
      if (met.size >= 16 * MOST_READY) met.clear();
      met.set(key, times);
      return anew;
    }
    made += 1;
    const tell = tellingReady(documents, asked, values, fixed) ?? anew;
    ready.set(key, tell);
    return tell;
  };
  const isAlways = !fixed.includes(true);
  let always: Tell | undefined;
  const plans = asked.bestSet !== undefined || asked.chosen !== undefined;
  return (values, into, at) => {
    if (always !== undefined) always(values, into, at);
    else {
      const tell = tellStock(values);
      if (isAlways && tell !== anew) always = tell;
      tell(values, into, at);
    }
    if (plans) planPart(scenarioIn(documents, values), rules, asked, into, at);
  };
}

function keyOf(values: Float64Array, fixed: readonly boolean[]): string {
  let key = '';
  for (let at = 0; at < fixed.length; at += 1) if (fixed[at] === true) key += `${values[at]},`;
  return key;
}

/** Scenarios resolved from their documents one by one. */
function tellingAnew(documents: Documents, asked: Asked): Tell {
  return (values, into, at) => {
    const stock = stockIn(documents, values);
    into.fill(Number.NaN, at, at + asked.columns.length);
    for (const part of partsOf(stock, asked)) part(stock, into, at);
  };
}

/** What one combination of words, counts and days makes ready; undefined where values do not get into a stock by themselves. */
function tellingReady(documents: Documents, asked: Asked, first: Float64Array, fixed: readonly boolean[]): Tell | undefined {
  const stock = copyOf(stockIn(documents, first));
  const writing = writingInto(stock, documents, first, fixed);
  if (writing === undefined) return undefined;
  const width = asked.columns.length;
  const constant = new Float64Array(width).fill(Number.NaN);
  const parts = otherParts(stock, asked);
  for (const part of parts) part(stock, constant, 0);
  const copy = copyOf(stock);
  const probe = { stock: copy, slots: writingInto(copy, documents, first, fixed)?.slots ?? [] };
  const varying: Part[] = parts.filter((part) => isReadBy(probe.slots, () => part(copy, new Float64Array(width), 0)));
  const { runs, read } = runsOf(stock, writing, probe, asked);
  read(first);
  for (const one of runs) tellRun(one, first, () => stock, constant, 0);
  const running = runs.filter(({ varies }) => varies);

  let current = first;
  let isWritten = false;
  const written = (): Stock => {
    if (!isWritten) writing.write(current);
    isWritten = true;
    return stock;
  };
  return (values, into, at) => {
    current = values;
    isWritten = false;
    into.set(constant, at);
    if (running.length > 0) read(values);
    for (let index = 0; index < running.length; index += 1) tellRun(running[index] as Run, values, written, into, at);
    for (let index = 0; index < varying.length; index += 1) (varying[index] as Part)(written(), into, at);
  };
}
