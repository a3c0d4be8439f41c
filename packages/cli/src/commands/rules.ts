import { describeRule, rules } from '@commensal/core';
import { cited, rulesText, ruleText } from '@commensal/report';
import type { RuleList } from '@commensal/schema';
import { bibliography } from '@commensal/species-sample';
import { distance } from 'fastest-levenshtein';
import { badCall, EXIT } from '../failure.js';
import { catalogueOf } from '../languages.js';
import type { SharedOptions } from '../options.js';
import { schemaOf } from '../versions.js';
import { either } from '../words.js';
import { writeOutput } from '../write-output.js';

/** `commensal rules [ID]`: what each rule asks, needs, assumes. Returns the exit code. */
export async function runRules(id: string | undefined, options: Pick<SharedOptions, 'format' | 'out' | 'lang'>): Promise<number> {
  const all = rules.map(describeRule);
  const chosen = id === undefined ? all : all.filter((rule) => rule.id === id);
  const [first] = chosen;
  if (first === undefined) {
    const nearest = [...all].sort((one, other) => distance(id ?? '', one.id) - distance(id ?? '', other.id))[0]?.id;
    throw badCall(
      'unknown-rule',
      `no rule has the id "${id}"`,
      `it must be ${either(all.map((rule) => rule.id))}`,
      `Did you mean ${nearest}?`,
    );
  }
  const list: RuleList = { $schema: schemaOf('rules'), rules: [first, ...chosen.slice(1)] };
  const cite = (key: string): string => {
    const item = bibliography.find((entry) => entry.id === key);
    return item === undefined ? key : cited(item);
  };
  const catalogue = await catalogueOf(options.lang);
  const text = id === undefined ? rulesText(catalogue, all) : ruleText(catalogue, first, cite);
  writeOutput(options.format === 'json' ? `${JSON.stringify(list, null, 2)}\n` : text, options.out);
  return EXIT.done;
}
