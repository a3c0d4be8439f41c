import type { RuleDefault, RuleDescription } from '@commensal/schema';
import { type Catalogue, say } from './catalogue.js';
import { page, paragraph } from './layout.js';
import { sayQuestion } from './question.js';
import { sayQuantity } from './voice.js';

/** All rules, a line or two each. */
export function rulesText(catalogue: Catalogue, rules: readonly RuleDescription[]): string {
  const width = Math.max(...rules.map((rule) => rule.id.length)) + 2;
  return page(
    say(catalogue, 'rules.heading'),
    rules.map((rule) => `  ${rule.id.padEnd(width)}${sayQuestion(catalogue, rule)}`).join('\n'),
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
    part('rules.asks', [sayQuestion(catalogue, rule)]),
    part('rules.looksAt', [tell(`rules.scope.${rule.scope}`)]),
    part('rules.inPlanning', [tell(`rules.planning.${rule.planning}`)]),
    part(
      'rules.helped',
      Object.entries(rule.monotone).map(([what, effect]) => tell('rules.effect', { what, effect })),
    ),
    part('rules.needs', rule.needs),
    part(
      'rules.thresholds',
      Object.entries(rule.defaults).map(([name, entry]) =>
        tell('rules.threshold', {
          name,
          value: thresholdValue(catalogue, entry),
          basis: tell(`basis.${entry.basis}`),
          ...(entry.source === undefined ? {} : { source: entry.source }),
          note: entry.note ?? '',
        }).trimEnd(),
      ),
    ),
    part('rules.sources', rule.sources.map(cite)),
  );
}

/** A threshold in metric units, as these are the units in which settings give them. */
export const thresholdValue = (catalogue: Catalogue, { value, unit }: RuleDefault): string =>
  sayQuantity({ catalogue, units: 'metric' }, Number(value.toPrecision(3)), unit);
