import type { RuleDefault, RuleDescription } from '@commensal/schema';
import { type Catalogue, has, say } from './catalogue.js';
import { sayThreshold } from './labels.js';
import { page, paragraph } from './layout.js';
import { sayHow, sayQuestion } from './question.js';
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
  const how = sayHow(catalogue, rule);
  return page(
    rule.id,
    part('rules.asks', [sayQuestion(catalogue, rule)]),
    how === undefined ? '' : part('rules.how', [how]),
    part('rules.looksAt', [tell(`rules.scope.${rule.scope}`)]),
    part('rules.inPlanning', [tell(`rules.planning.${rule.planning}`)]),
    part(
      'rules.helped',
      Object.entries(rule.monotone).map(([what, effect]) => tell('rules.effect', { what, effect })),
    ),
    part(
      'rules.needs',
      rule.needs.map((need) => sayNeed(catalogue, need)),
    ),
    part(
      'rules.thresholds',
      Object.entries(rule.defaults).map(([name, entry]) =>
        tell('rules.threshold', {
          name,
          value: thresholdValue(catalogue, entry),
          basis: tell(`basis.${entry.basis}`),
          ...(entry.source === undefined ? {} : { source: entry.source }),
          label: sayThreshold(catalogue, rule.id, name),
          ...(entry.note === undefined ? {} : { note: entry.note }),
        }),
      ),
    ),
    part('rules.sources', rule.sources.map(cite)),
  );
}

/** A field that a rule reads, by its name in documents, with what it is called. */
export const sayNeed = (catalogue: Catalogue, need: string): string =>
  has(catalogue, `field.${need}`) ? say(catalogue, 'depth.field', { label: say(catalogue, `field.${need}`), field: need }) : need;

/** A threshold in metric units, as these are the units in which settings give them. */
export const thresholdValue = (catalogue: Catalogue, { value, unit }: RuleDefault): string =>
  sayQuantity({ catalogue, units: 'metric' }, Number(value.toPrecision(3)), unit);
