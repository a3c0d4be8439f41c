import type { Problem, Situation } from '@commensal/schema';
import { isVendors } from '../rules/ids.js';
import type { AnyRule } from '../rules/rule.js';
import { nearMiss } from './near-miss.js';

/** What the settings of a situation name that the rules do not have: rules switched off, thresholds. */
export function settingsProblems(situation: Situation, rules: readonly AnyRule[]): Problem[] {
  const problems: Problem[] = [];
  const byId = new Map(rules.map((rule) => [rule.id, rule]));
  const ids = [...byId.keys()];
  (situation.settings?.off ?? []).forEach((id, index) => {
    if (!byId.has(id)) problems.push(unknown('rule', `/settings/off/${index}`, id, ids));
  });
  for (const [id, options] of Object.entries(situation.settings?.thresholds ?? {})) {
    const rule = byId.get(id);
    const pointer = `/settings/thresholds/${escaped(id)}`;
    if (rule === undefined) {
      problems.push(unknown('rule', pointer, id, ids));
      continue;
    }
    const names = Object.keys(rule.defaults);
    for (const name of Object.keys(options)) {
      if (!names.includes(name)) problems.push(unknown('threshold', `${pointer}/${escaped(name)}`, name, names));
    }
  }
  return problems;
}

/** A name as one step of a JSON pointer: the slash of `vendor/rule` is none between steps. */
const escaped = (name: string): string => name.replaceAll('~', '~0').replaceAll('/', '~1');

function unknown(what: 'rule' | 'threshold', pointer: string, name: string, known: readonly string[]): Problem {
  const meant = nearMiss(name, known);
  return {
    code: `unknown-${what}`,
    pointer,
    found: `settings name the ${what} ${JSON.stringify(name)}`,
    allowed: known.length === 0 ? `there is no ${what} to name` : `it must be ${either(known)}`,
    fix: meant === undefined ? otherwise(what, name, known) : `Did you mean "${meant}"?`,
  };
}

function otherwise(what: 'rule' | 'threshold', name: string, known: readonly string[]): string {
  if (what === 'rule' && isVendors(name))
    return `Leave it out, or use a program that has the rules of "${name.slice(0, name.indexOf('/'))}".`;
  return known.length === 0 ? 'Leave it out.' : 'Use one of these, or leave it out.';
}

const either = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
