import { askedUnder } from '../../check/check.js';
import { gape } from '../../rules/gape/index.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import type { Stock } from '../../stock/stock.js';
import type { Asked } from './outputs.js';
import { isSplit, splitRun } from './split.js';
import type { Slot } from './slots.js';
import { swallowingRun } from './swallowing.js';
import type { Writing } from './writing.js';

/** What runs over many scenarios: the stock is written only where it is asked for. */
export interface Run {
  readonly run: (values: Float64Array, written: () => Stock, into: Float64Array, at: number) => void;
  /** Whether it comes to another answer when the values do. */
  readonly varies: boolean;
}

/** A copy of a stock, and the places in it that vary: for looking at what is read. */
export interface Probe {
  readonly stock: Stock;
  readonly slots: readonly Slot[];
}

/** Rules that have a run of their own. */
export const hasRun = (rule: unknown): boolean => rule === gape || isSplit(rule);

/** The runs of what is asked, over scenarios that differ from `stock` in what is written alone. */
export const runsOf = (stock: Stock, writing: Writing, probe: Probe, { byRule }: Asked): Run[] =>
  askedUnder(stock, [...byRule.keys()].filter(hasRun)).map(({ rule, options }) => {
    const askings = byRule.get(rule) ?? [];
    const isGape = (rule as unknown) === gape;
    return isGape ? swallowingRun(stock, writing, options as GapeOptions, askings) : splitRun(rule, options, askings, stock, probe);
  });
