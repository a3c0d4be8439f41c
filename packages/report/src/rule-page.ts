import type { RuleDescription } from '@commensal/schema';
import { type Catalogue, say } from './catalogue.js';
import { sayHow, sayQuestion } from './question.js';
import { sayNeed, thresholdValue } from './rules-text.js';

/** One rule as a page of Markdown, for the documentation. `cite` writes a source out from its key. */
export function rulePage(catalogue: Catalogue, rule: RuleDescription, cite: (key: string) => string): string {
  const tell = (key: string, slots = {}): string => say(catalogue, key, slots);
  const bullets = (items: readonly string[]): string =>
    items.length === 0 ? tell('rules.none') : items.map((item) => `- ${item}`).join('\n');
  const thresholds = Object.entries(rule.defaults).map(([name, entry]) => {
    const rests = [tell(`basis.${entry.basis}`), ...(entry.source === undefined ? [] : [entry.source])].join('; ');
    return `| \`${name}\` | ${thresholdValue(catalogue, entry)} | ${rests} | ${entry.note ?? ''} |`;
  });
  const parts: readonly [string, string][] = [
    [tell('rules.looksAt'), tell(`rules.scope.${rule.scope}`)],
    [tell('rules.inPlanning'), tell(`rules.planning.${rule.planning}`)],
    [tell('rules.helped'), bullets(Object.entries(rule.monotone).map(([what, effect]) => tell('rules.effect', { what, effect })))],
    [tell('rules.needs'), bullets(rule.needs.map((need) => sayNeed(catalogue, need)))],
    [
      tell('rules.thresholds'),
      thresholds.length === 0 ? tell('rules.none') : [tell('rules.tableHead'), '|---|---|---|---|', ...thresholds].join('\n'),
    ],
    [tell('rules.says'), bullets(sentencesOf(catalogue, rule.id))],
    [tell('rules.sources'), bullets(rule.sources.map(cite))],
  ];
  const how = sayHow(catalogue, rule);
  return [
    `# ${rule.id}`,
    sayQuestion(catalogue, rule),
    ...(how === undefined ? [] : [how]),
    ...parts.map(([title, body]) => `## ${title}\n\n${body}`),
  ]
    .join('\n\n')
    .concat('\n');
}

/** Endings of sentences that tell of several findings at once. */
const OF_SEVERAL = /\.(several|severalNotes|one)$/;

/** The sentences of a rule, with the names of their slots in place of what fills them. */
function sentencesOf(catalogue: Catalogue, rule: string): string[] {
  const slots = new Proxy({}, { get: (_, name) => `‹${String(name)}›`, has: () => true });
  return Object.keys(catalogue.messages)
    .filter((key) => key.startsWith(`${rule}.`) && !OF_SEVERAL.test(key))
    .map((key) => `\`${key}\`: ${say(catalogue, key, slots).replaceAll('NaN', '‹number›')}`);
}
