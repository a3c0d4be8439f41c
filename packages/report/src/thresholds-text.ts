import type { Finding, RuleDescription, Situation } from '@commensal/schema';
import { item, name as titled, paragraph, type Section, under } from './blocks.js';
import { say } from './catalogue.js';
import { joined, sayThreshold } from './labels.js';
import { sayQuestion } from './question.js';
import type { References } from './references.js';
import { thresholdValue } from './rules-text.js';
import { capital, type Voice } from './voice.js';

type Entry = RuleDescription['defaults'][string];

/** What the settings of a situation put in place of a rule's own thresholds, as far as it differs. */
function changedIn(situation: Situation, rule: RuleDescription): [name: string, entry: Entry, value: number][] {
  const told = situation.settings?.thresholds?.[rule.id] ?? {};
  return Object.entries(rule.defaults).flatMap(([name, entry]): [string, Entry, number][] => {
    const value = told[name];
    return value === undefined || value === entry.value ? [] : [[name, entry, value]];
  });
}

/** The thresholds of a rule that the settings changed, for the line beneath a finding of it; empty where they changed none. */
export function sayChanged(voice: Voice, situation: Situation, rule: RuleDescription | undefined): string {
  if (rule === undefined) return '';
  const changed = changedIn(situation, rule).map(([name, entry, value]) => sayEntry(voice, rule.id, name, entry, value));
  return joined(voice.catalogue, changed);
}

/** A threshold in metric units, whatever the reader's, as settings give them so. */
function sayEntry(voice: Voice, rule: string, name: string, entry: Entry, value: number, field?: string): string {
  return say(voice.catalogue, 'depth.threshold', {
    label: sayThreshold(voice.catalogue, rule, name),
    ...(field === undefined ? {} : { field }),
    value: thresholdValue(voice.catalogue, { ...entry, value }),
    ...(value === entry.value ? {} : { usual: thresholdValue(voice.catalogue, entry) }),
  });
}

/**
 * The thresholds of every rule that found something, and of those whose thresholds were changed, which may be why they found
 * nothing. With references also their names in the settings, what they rest on, and where they come from.
 */
export function thresholdsSections(
  voice: Voice,
  situation: Situation,
  rules: readonly RuleDescription[],
  findings: readonly Finding[],
  references?: References,
): Section[] {
  const heard = new Set(findings.map(({ rule }) => rule));
  const parts = rules.flatMap((rule) => {
    const changed = new Map(changedIn(situation, rule).map(([name, , value]) => [name, value]));
    const sources = references === undefined ? [] : rule.sources;
    const isEmpty = Object.keys(rule.defaults).length === 0 && sources.length === 0;
    if (isEmpty || (!heard.has(rule.id) && changed.size === 0)) return [];
    const title = sayQuestion(voice.catalogue, rule);
    const lines = Object.entries(rule.defaults).map(([name, entry]) => {
      const value = changed.get(name) ?? entry.value;
      if (references === undefined) return sayEntry(voice, rule.id, name, entry, value);
      return joined(voice.catalogue, [
        sayEntry(voice, rule.id, name, entry, value, name),
        say(voice.catalogue, `basis.${entry.basis}`),
        ...(entry.source === undefined ? [] : [references.short(entry.source)]),
      ]);
    });
    return [
      titled(references === undefined ? title : capital(say(voice.catalogue, 'depth.rule', { rule: rule.id, question: title }))),
      ...lines.map((text) => item(text)),
      ...(references === undefined || sources.length === 0
        ? []
        : [item(say(voice.catalogue, 'depth.ruleSources', { list: joined(voice.catalogue, sources.map(references.short)) }))]),
    ];
  });
  if (parts.length === 0) return [];
  const units = voice.units === 'metric' ? [] : [paragraph(say(voice.catalogue, 'depth.thresholdUnits'), 2)];
  return under(say(voice.catalogue, 'depth.thresholds'), [[...units, ...parts]]);
}
