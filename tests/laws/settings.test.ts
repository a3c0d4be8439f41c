/** What settings do to every rule: switching it off takes its findings out and no others, and each of its thresholds moves something. */
import { type AnyRule, check, type Checked, type Stock, stockOf } from '@commensal/core';
import type { Finding } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { allRules } from '../sentences/keys.js';
import { cases } from '../sentences/situations.js';
import { thresholdCases } from '../support/threshold-cases.js';

const stocks: readonly Stock[] = [...thresholdCases, ...cases].map(({ name, situation, library }) => {
  const { stock, problems } = stockOf(situation, library);
  if (problems.length > 0) throw new Error(`${name}: ${JSON.stringify(problems)}`);
  return stock;
});

const withSettings = (stock: Stock, more: Partial<Stock['settings']>): Stock => ({ ...stock, settings: { ...stock.settings, ...more } });

describe('a rule switched off', () => {
  /** Some of the cases are enough: every rule finds something in many of them. */
  const some = stocks.filter((_, index) => index % 7 === 0);
  const before: readonly Checked[] = some.map((stock) => check(stock, allRules));

  it.each(allRules.map(({ id }) => id))('%s: its findings are gone, all others are there, and it counts as untested', (id) => {
    let gone = 0;
    some.forEach((stock, index) => {
      const { findings, summary } = before[index] as Checked;
      const after = check(withSettings(stock, { off: [id] }), allRules);
      const others = (all: readonly Finding[]): Finding[] => all.filter(({ rule }) => rule !== id && !speaksFor(id).includes(rule));
      expect(others(after.findings)).toEqual(others(findings));
      expect(after.findings.filter(({ rule }) => rule === id)).toEqual([]);
      const { [id]: counts, ...rest } = after.summary.rules;
      expect(counts).toEqual({ passed: 0, failed: 0, cantTell: 0, inapplicable: 0, untested: 1 });
      for (const [other, its] of Object.entries(rest)) {
        if (!speaksFor(id).includes(other)) expect(its, other).toEqual(summary.rules[other]);
      }
      gone += findings.filter(({ rule }) => rule === id).length;
    });
    expect(gone).toBeGreaterThan(0);
  });

  /** Animals that are too many of their kind are told of by `company`; where that is silent, by `rivalry`. */
  const speaksFor = (id: string): readonly string[] => (id === 'company' ? ['rivalry'] : []);
});

/** What a finding comes to, without the figures that it prints: a threshold stands among them. */
const comesTo = (stock: Stock, rule: AnyRule): string =>
  check(stock, [rule])
    .findings.map(({ key, outcome, level, message, when }) => `${key} ${outcome} ${level} ${message} ${when}`)
    .join('\n');

describe('each threshold', () => {
  const all = allRules.flatMap((rule) => Object.entries(rule.defaults).map(([name, { value }]) => ({ rule, name, value })));
  const plain = new Map<AnyRule, (string | undefined)[]>(allRules.map((rule) => [rule, stocks.map(() => undefined)]));

  const before = (rule: AnyRule, index: number): string => {
    const known = plain.get(rule) as (string | undefined)[];
    known[index] ??= comesTo(stocks[index] as Stock, rule);
    return known[index];
  };

  it('there are some of', () => expect(all.length).toBeGreaterThan(30));

  it.each(all.map(({ rule, name, value }) => [rule.id, name, value, rule] as const))(
    '%s: %s moves what comes out, up or down from %d',
    (id, name, value, rule) => {
      const others = [value * 1.5, value / 2, value * 4, value / 8, value + 1, 0].filter((other) => other !== value);
      const moved = others.some((other) =>
        stocks.some((stock, index) => {
          const { thresholds } = stock.settings;
          if (thresholds[id]?.[name] !== undefined) return false;
          const told = withSettings(stock, { thresholds: { ...thresholds, [id]: { ...thresholds[id], [name]: other } } });
          return comesTo(told, rule) !== before(rule, index);
        }),
      );
      expect(moved).toBe(true);
    },
  );
});
