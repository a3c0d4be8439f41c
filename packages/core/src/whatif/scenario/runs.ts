import { askedUnder } from '../../check/check.js';
import { gape } from '../../rules/gape/index.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import type { AnyRule } from '../../rules/rule.js';
import type { Stock } from '../../stock/stock.js';
import { columnsOf } from '../columns/columns.js';
import { kernelsOn } from '../columns/kernels.js';
import { type Kernel, LEFT } from '../columns/kernel.js';
import { type Asked, type Asking, isOutright } from './outputs.js';
import { type Part, rulePart } from './parts.js';
import { isSplit, splitRun } from './split.js';
import { isReadBy, type Slot } from './slots.js';
import { swallowingRun } from '../columns/swallowing.js';
import { writeOutcome } from './tally.js';
import type { Writing } from './writing.js';

/** What one rule comes to in scenario after scenario. */
export interface Run {
  /** Asked first where there is one, and for which columns of outputs; what it leaves goes to `run`. */
  readonly byKernel?: { readonly kernel: Kernel; readonly outcomes: Int32Array };
  /** Once the columns are read; the stock is written only where it is asked for. */
  readonly run: (values: Float64Array, written: () => Stock, into: Float64Array, at: number) => void;
  /** Whether it comes to another answer when the values do. */
  readonly varies: boolean;
}

/** A copy of a stock, and the places in it that vary: for looking at what is read. */
export interface Probe {
  readonly stock: Stock;
  readonly slots: readonly Slot[];
}

/** Runs of rules, and what reads a scenario for them. */
export interface Runs {
  readonly runs: readonly Run[];
  readonly read: (values: Float64Array) => void;
}

/** The runs of the rules that are asked, over scenarios that differ from `stock` in what is written alone. */
export function runsOf(stock: Stock, writing: Writing, probe: Probe, { byRule }: Asked): Runs {
  const columns = columnsOf(stock, writing);
  const { kernelOf, placesSoFar } = kernelsOn(columns);
  const asked = askedUnder(stock, [...byRule.keys()]).map(({ rule, options }) => {
    const askings = byRule.get(rule) ?? [];
    // What no kernel answers has none laid out, nor places worked out for it.
    return { rule, options, askings, kernel: askings.some(isOutright) ? kernelOf(rule, options) : undefined };
  });
  const runs = asked.flatMap(({ rule, options, askings, kernel }): Run[] => {
    const varies = (): boolean => isVarying(rulePart(rule, options, askings), askings, probe);
    if ((rule as unknown) === gape)
      return [{ run: swallowingRun(columns, placesSoFar(), options as GapeOptions, askings), varies: varies() }];
    const outright = kernel === undefined ? [] : askings.filter(isOutright);
    const others = askings.filter((asking) => !outright.includes(asking));
    return [
      ...(others.length === 0 ? [] : [objectRun(rule, options, others, stock, probe)]),
      ...(kernel === undefined || outright.length === 0
        ? []
        : [
            {
              byKernel: { kernel, outcomes: Int32Array.from(outright, ({ column }) => column) },
              run: laidOutLate(() => objectRun(rule, options, outright, stock, probe)),
              varies: varies(),
            },
          ]),
    ];
  });
  return { runs, read: columns.read };
}

/** Whether a rule reads something that varies: else it comes to the same in every scenario. */
function isVarying(part: Part, askings: readonly Asking[], { slots, stock }: Probe): boolean {
  const into = new Float64Array(2 + Math.max(...askings.map(({ column }) => column)));
  return isReadBy(slots, () => part(stock, into, 0));
}

/** By the rule's own functions on the stock. */
function objectRun(rule: AnyRule, options: Readonly<Record<string, number>>, askings: readonly Asking[], stock: Stock, probe: Probe): Run {
  if (isSplit(rule)) return splitRun(rule, options, askings, stock, probe);
  const part = rulePart(rule, options, askings);
  return {
    varies: isVarying(part, askings, probe),
    run: (_values, written, into, at) => part(written(), into, at),
  };
}

/** What kernels leave comes up so seldom that it is laid out then. */
function laidOutLate(layOut: () => Run): Run['run'] {
  let own: Run | undefined;
  return (values, written, into, at) => {
    own ??= layOut();
    own.run(values, written, into, at);
  };
}

/** What a rule comes to in the scenario that the columns hold. */
export function tellRun({ byKernel, run }: Run, values: Float64Array, written: () => Stock, into: Float64Array, at: number): void {
  const rank = byKernel === undefined ? LEFT : byKernel.kernel();
  if (byKernel === undefined || rank === LEFT) {
    run(values, written, into, at);
    return;
  }
  const { outcomes } = byKernel;
  for (let index = 0; index < outcomes.length; index += 1) writeOutcome(rank, into, at + (outcomes[index] as number));
}
