/** What check and plan make of the cases, worked out once for each file of tests: it takes longer than all that is said of it. */
import { type Checked, check, plan, type Planned, rules, stockOf } from '@commensal/core';
import { allRules } from './keys.js';
import type { Case } from './situations.js';

const checks = new Map<Case, Checked>();
const plans = new Map<Case, Planned>();

function kept<T>(made: Map<Case, T>, one: Case, make: () => T): T {
  const before = made.get(one) ?? make();
  made.set(one, before);
  return before;
}

/** @throws Error for a case that is not a valid situation. */
export const checkedCase = (one: Case): Checked =>
  kept(checks, one, () => {
    const { stock, problems } = stockOf(one.situation, one.library);
    if (problems.length > 0) throw new Error(`${one.name}: ${JSON.stringify(problems)}`);
    return check(stock, allRules);
  });

export const plannedCase = (one: Case): Planned => kept(plans, one, () => plan(one.situation, one.library, rules));
