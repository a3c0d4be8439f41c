import type { RuleDescription } from '@commensal/schema';
import type { AnyRule } from './rule.js';

/** What a rule asks, needs and assumes, as plain data. */
export function describeRule(rule: AnyRule): RuleDescription {
  const { id, question, scope, planning, monotone, needs, sources, defaults } = rule;
  return {
    id,
    question,
    scope,
    planning,
    monotone: { ...monotone },
    needs: [...needs],
    sources: [...sources],
    defaults: Object.fromEntries(Object.entries(defaults).map(([name, entry]) => [name, { ...entry }])),
  };
}
