import type { Problem, Situation } from '@commensal/schema';
import type { AnyRule } from '../rules/rule.js';

/** What the settings of a situation name that the rules do not have: rules switched off, thresholds. */
export function settingsProblems(situation: Situation, rules: readonly AnyRule[]): Problem[] {
  const problems: Problem[] = [];
  const byId = new Map(rules.map((rule) => [rule.id, rule]));
  const ids = [...byId.keys()].join(', ');
  (situation.settings?.off ?? []).forEach((id, index) => {
    if (!byId.has(id)) problems.push(unknown('unknown-rule', `/settings/off/${index}`, id, ids));
  });
  for (const [id, options] of Object.entries(situation.settings?.thresholds ?? {})) {
    const rule = byId.get(id);
    if (rule === undefined) {
      problems.push(unknown('unknown-rule', `/settings/thresholds/${id}`, id, ids));
      continue;
    }
    const names = Object.keys(rule.defaults);
    for (const name of Object.keys(options)) {
      if (!names.includes(name)) problems.push(unknown('unknown-threshold', `/settings/thresholds/${id}/${name}`, name, names.join(', ')));
    }
  }
  return problems;
}

const unknown = (code: string, pointer: string, found: string, allowed: string): Problem => ({
  code,
  pointer,
  found: `"${found}"`,
  allowed,
  fix: 'Use one of the names that are allowed, or leave it out.',
});
