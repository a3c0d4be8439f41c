import { askedUnder } from '../../check/check.js';
import { gape } from '../../rules/gape/index.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import type { AnyRule } from '../../rules/rule.js';
import type { Stock } from '../../stock/stock.js';
import { columnsOf } from '../columns/columns.js';
import { kernelsOn } from '../columns/kernels.js';
import { LEFT } from '../columns/kernel.js';
import type { Asked, Asking } from './outputs.js';
import { takingIn } from './parts.js';
import { isSplit, splitRun } from './split.js';
import { isReadBy, type Slot } from './slots.js';
import { swallowingRun } from '../columns/swallowing.js';
import { tallyOf, writeOutcome } from './tally.js';
import type { Writing } from './writing.js';

/** What one rule comes to in scenario after scenario. */
export interface Run {
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
  const kernelOf = kernelsOn(columns);
  const runs = askedUnder(stock, [...byRule.keys()]).flatMap(({ rule, options }): Run[] => {
    const askings = byRule.get(rule) ?? [];
    if ((rule as unknown) === gape) {
      const { varies } = objectRun(rule, options, askings, stock, probe);
      return [{ run: swallowingRun(columns, options as GapeOptions, askings), varies }];
    }
    const kernel = kernelOf(rule, options);
    const outright = kernel === undefined ? [] : askings.filter(({ what, subjects }) => what === 'outcome' && subjects.length === 0);
    const others = askings.filter((asking) => !outright.includes(asking));
    return [
      ...(others.length === 0 ? [] : [objectRun(rule, options, others, stock, probe)]),
      ...(kernel === undefined || outright.length === 0
        ? []
        : [kernelRun(kernel, outright, objectRun(rule, options, outright, stock, probe))]),
    ];
  });
  return { runs, read: columns.read };
}

/** By the rule's own functions on the stock. */
function objectRun(rule: AnyRule, options: Readonly<Record<string, number>>, askings: readonly Asking[], stock: Stock, probe: Probe): Run {
  if (isSplit(rule)) return splitRun(rule, options, askings, stock, probe);
  const tally = tallyOf(askings);
  const take = takingIn(rule, options, askings, tally);
  const varies = isReadBy(probe.slots, () => take(probe.stock));
  return {
    varies,
    run: (_values, written, into, at) => {
      tally.start();
      take(written());
      tally.write(into, at);
    },
  };
}

/** By a kernel, and by the rule itself what that leaves to it. */
const kernelRun = (kernel: () => number, askings: readonly Asking[], byRule: Run): Run => ({
  varies: byRule.varies,
  run: (values, written, into, at) => {
    const rank = kernel();
    if (rank === LEFT) byRule.run(values, written, into, at);
    else for (let index = 0; index < askings.length; index += 1) writeOutcome(rank, into, at + (askings[index] as Asking).column);
  },
});
