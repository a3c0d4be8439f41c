import type { Caution, CheckReport, Finding, Level, RuleCounts, StaleAcceptance, Summary } from '@commensal/schema';
import { dayOf, isoOf } from '../quantity/days.js';
import { expectIds } from '../rules/ids.js';
import { LEVELS } from '../rules/levels.js';
import { type AnyRule, keyOf, optionsOf } from '../rules/rule.js';
import type { Stock, StockKind } from '../stock/stock.js';
import { cautionsOf } from './cautions.js';
import { ailingSpecies } from './illness.js';

/** What check finds, without the versions it was made with. */
export type Checked = Omit<CheckReport, '$schema' | 'versions'>;

/**
 * Runs rules over a stock. Findings are what failed and what cannot be told, the gravest first; what passed is counted in the
 * summary. Accepted findings stay in the list, marked, and are not counted among the failures.
 *
 * @throws RangeError when two rules share an id, when one that is not ours has none of the form `vendor/rule`, and when the
 * settings name an option that a rule does not have; `settingsProblems` tells the last beforehand.
 * @example
 * check(stockOf(situation, library).stock, rules).findings.filter(isError).length; // 0
 */
export function check(stock: Stock, rules: readonly AnyRule[]): Checked {
  expectIds('check', rules);
  const { findings, counts, stale } = run(stock, rules);
  findings.sort(byGravity);
  return {
    date: isoOf(stock.day),
    findings,
    summary: summaryOf(counts, findings),
    cautions: cautionsIn(stock, findings),
    staleAcceptances: stale,
  };
}

/** The cautions of all that a situation names, and of what was found; `others` are animals of findings that are not in it. */
export const cautionsIn = (
  stock: Stock,
  findings: readonly Finding[],
  others: readonly { readonly id: string; readonly kind: StockKind }[] = [],
): Caution[] =>
  cautionsOf(
    [...stock.animals, ...stock.wishes].map((named) => named.kind.record),
    { kept: stock.tank.kept, ailing: ailingSpecies(findings, [...stock.animals, ...others]) },
  );

/** A rule and its options under some settings. */
export interface Asked {
  readonly rule: AnyRule;
  readonly options: Readonly<Record<string, number>>;
}

/** Rules that are not switched off, with their options: looked up once where they are to be asked over and over. */
export const askedUnder = (stock: Stock, rules: readonly AnyRule[]): Asked[] =>
  rules.filter(({ id }) => !stock.settings.off.includes(id)).map((rule) => ({ rule, options: optionsOf(rule, stock) }));

/** The findings alone, in no particular order, accepted ones marked, from a level up: what a search asks for over and over. */
export function findingsOf(stock: Stock, asked: readonly Asked[], from: Level = 'note'): readonly Finding[] {
  const findings: Finding[] = [];
  const count = noneYet();
  for (const { rule, options } of asked) runRule(rule, options, stock, count, findings, LEVELS.indexOf(from));
  if (stock.settings.accepted.length > 0) acceptances(stock, findings);
  return findings;
}

function run(
  stock: Stock,
  rules: readonly AnyRule[],
): { findings: Finding[]; counts: Record<string, RuleCounts>; stale: StaleAcceptance[] } {
  const findings: Finding[] = [];
  const counts: Record<string, RuleCounts> = {};
  for (const rule of rules) {
    const count = noneYet();
    counts[rule.id] = count;
    if (stock.settings.off.includes(rule.id)) count.untested = 1;
    else runRule(rule, optionsOf(rule, stock), stock, count, findings, 0);
  }
  return { findings, counts, stale: acceptances(stock, findings) };
}

const noneYet = (): Record<'passed' | 'failed' | 'cantTell' | 'inapplicable' | 'untested', number> => ({
  passed: 0,
  failed: 0,
  cantTell: 0,
  inapplicable: 0,
  untested: 0,
});

function runRule(
  rule: AnyRule,
  options: Readonly<Record<string, number>>,
  stock: Stock,
  count: Record<'passed' | 'failed' | 'cantTell' | 'inapplicable', number>,
  findings: Finding[],
  from: number,
): void {
  rule.measure(stock, options, (measure) => {
    const verdict = rule.judge(measure, options);
    count[verdict.outcome] += 1;
    if (verdict.outcome !== 'failed' && verdict.outcome !== 'cantTell') return;
    if (from > 0 && LEVELS.indexOf(verdict.level) < from) return;
    const { subjects, data, when, basis } = rule.tell(measure, verdict, stock, options);
    // Handed on, not copied: objects of so many shapes are slow to copy.
    findings.push({
      key: keyOf(rule.id, subjects),
      rule: rule.id,
      outcome: verdict.outcome,
      level: verdict.level,
      subjects: subjects as Finding['subjects'],
      message: verdict.message,
      data: data as Finding['data'],
      when: when === null ? null : isoOf(when),
      basis,
    });
  });
}

const isInForce = (stock: Stock, until: string | undefined): boolean => until === undefined || dayOf(until) > stock.day;

/** Whether the keeper has accepted a finding, by its key. */
export const isAccepted = (stock: Stock, key: string): boolean =>
  stock.settings.accepted.some((accepted) => accepted.key === key && isInForce(stock, accepted.until));

/** Marks what the keeper has accepted, and returns the acceptances that no longer apply. */
function acceptances(stock: Stock, findings: Finding[]): StaleAcceptance[] {
  const stale: StaleAcceptance[] = [];
  for (const { key, reason, until } of stock.settings.accepted) {
    const at = findings.findIndex((finding) => finding.key === key);
    const finding = findings[at];
    if (finding === undefined) stale.push({ key, why: 'not-found' });
    else if (!isInForce(stock, until)) stale.push({ key, why: 'past-its-day' });
    else findings[at] = { ...finding, accepted: reason };
  }
  return stale;
}

/** Failures before doubts, the gravest first, then the soonest, then by key: a fixed order whatever the document's. */
export function byGravity(one: Finding, other: Finding): number {
  if (one.level !== other.level) return LEVELS.indexOf(other.level) - LEVELS.indexOf(one.level);
  if (one.outcome !== other.outcome) return one.outcome === 'failed' ? -1 : 1;
  const oneDay = one.when ?? '9999';
  const otherDay = other.when ?? '9999';
  if (oneDay !== otherDay) return oneDay < otherDay ? -1 : 1;
  return one.key < other.key ? -1 : one.key > other.key ? 1 : 0;
}

function summaryOf(rules: Record<string, RuleCounts>, findings: readonly Finding[]): Summary {
  const failed = { error: 0, warning: 0, note: 0 };
  const cantTell = { error: 0, warning: 0, note: 0 };
  let accepted = 0;
  for (const finding of findings) {
    if (finding.accepted !== undefined) accepted += 1;
    else if (finding.outcome === 'failed') failed[finding.level] += 1;
    else cantTell[finding.level] += 1;
  }
  return { rules, failed, cantTell, accepted };
}

/** Whether a finding excludes: a failure at level error that nobody has accepted. */
export const isError = (finding: Finding): boolean =>
  finding.outcome === 'failed' && finding.level === 'error' && finding.accepted === undefined;
