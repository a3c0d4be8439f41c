import type { RuleDescription } from '@commensal/schema';
import { type Catalogue, say } from './catalogue.js';
import { page, paragraph } from './layout.js';
import { sayQuantity } from './voice.js';

/** All rules, a line or two each. */
export function rulesText(catalogue: Catalogue, rules: readonly RuleDescription[]): string {
  const width = Math.max(...rules.map((rule) => rule.id.length)) + 2;
  return page(
    say(catalogue, 'rules.heading'),
    rules.map((rule) => `  ${rule.id.padEnd(width)}${rule.question}`).join('\n'),
    say(catalogue, 'rules.more'),
  );
}

/** One rule, whole. `cite` writes a source out from its key. */
export function ruleText(catalogue: Catalogue, rule: RuleDescription, cite: (key: string) => string): string {
  const tell = (key: string, slots = {}): string => say(catalogue, key, slots);
  const part = (title: string, lines: readonly string[]): string =>
    [tell(title), ...(lines.length === 0 ? [tell('rules.none')] : lines).map((line) => paragraph(line, 2))].join('\n');
  return page(
    rule.id,
    part('rules.asks', [rule.question]),
    part('rules.looksAt', [tell(`rules.scope.${rule.scope}`)]),
    part('rules.inPlanning', [tell(`rules.planning.${rule.planning}`)]),
    part(
      'rules.helped',
      Object.entries(rule.monotone).map(([what, effect]) => tell('rules.effect', { what, effect })),
    ),
    part('rules.needs', rule.needs),
    part(
      'rules.thresholds',
      Object.entries(rule.defaults).map(([name, { value, unit, basis, source, note }]) =>
        tell('rules.threshold', {
          name,
          // Metric, as these are the units in which settings give them.
          value: sayQuantity({ catalogue, units: 'metric' }, Number(value.toPrecision(3)), unit),
          basis: tell(`basis.${basis}`),
          ...(source === undefined ? {} : { source }),
          note: note ?? '',
        }).trimEnd(),
      ),
    ),
    part('rules.sources', rule.sources.map(cite)),
  );
}
