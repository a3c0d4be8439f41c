import type { Finding, OrderReason, Situation } from '@commensal/schema';
import { line, type Section, under } from './blocks.js';
import { say } from './catalogue.js';
import { groundsOf, type TextOptions } from './depth.js';
import { figuresOf, type Told } from './figures.js';
import { type Group, labelOf } from './groups.js';
import { joined } from './labels.js';
import { sayQuestion } from './question.js';
import { recordsSections } from './records-text.js';
import { referencesIn } from './references.js';
import { sayChanged, thresholdsSections } from './thresholds-text.js';
import type { Voice } from './voice.js';

/** What a report holds besides its sentences. */
export interface Deeper {
  /** Lines beneath the sentence of a group of findings. */
  group(group: Group): string[];
  /** Lines beneath the reasons why a batch stands where it stands. */
  reasons(reasons: readonly OrderReason[]): string[];
  /** Sections after the findings: what those that were printed rest on. */
  sections(printed: readonly Finding[]): Section[];
}

const NOTHING: Deeper = { group: () => [], reasons: () => [], sections: () => [] };

/** What lies beneath the sentences of a report, at the depth that the options name. */
export function deeperOf(voice: Voice, situation: Situation, options: TextOptions): Deeper {
  const grounds = groundsOf(options);
  if (grounds === undefined) return NOTHING;
  const tell = (key: string, slots: Record<string, string> = {}): string => say(voice.catalogue, key, slots);
  const withSources = options.depth === 'researcher';
  const figures = (told: Told, without?: string): string =>
    joined(
      voice.catalogue,
      figuresOf(voice, told)
        .filter(({ slot }) => slot !== without)
        .map(({ label, value }) => tell('depth.figure', { label, value })),
    );

  /** One line for each finding, with its animal before it; a single one where they all say the same. */
  const each = (group: Group, of: (finding: Finding) => string): string[] => {
    const { first, others } = group;
    const lines = [first, ...others].map((finding) => ({ finding, text: of(finding) })).filter(({ text }) => text !== '');
    if (new Set(lines.map(({ text }) => text)).size < 2) return lines.slice(0, 1).map(({ text }) => text);
    return lines.map(({ finding, text }) => tell('depth.of', { name: labelOf(voice, group, finding), text }));
  };

  return {
    group(group) {
      const { rule: id, outcome, level } = group.first;
      const rule = grounds.rules.find((one) => one.id === id);
      const changed = sayChanged(voice, situation, rule);
      return [
        tell('depth.outcome', { outcome, level }),
        ...each(group, (finding) => figures(finding)),
        ...(changed === '' ? [] : [changed]),
        ...(withSources
          ? [
              ...(rule === undefined ? [id] : [tell('depth.rule', { rule: id, question: sayQuestion(voice.catalogue, rule) })]),
              ...each(group, ({ key, basis }) => tell('depth.finding', { key, basis: tell(`basis.${basis}`) })),
            ]
          : []),
      ];
    },

    // The day itself stands above the reasons.
    reasons: (reasons) => reasons.map((reason) => figures(reason, 'day')).filter((text) => text !== ''),

    sections(printed) {
      if (!withSources) return thresholdsSections(voice, situation, grounds.rules, printed);
      const references = referencesIn(grounds.bibliography);
      const thresholds = thresholdsSections(voice, situation, grounds.rules, printed, references);
      const records = recordsSections(voice, grounds, printed, references);
      const list = references.list().map((reference) => line(reference));
      return [...thresholds, ...records, ...(list.length === 0 ? [] : under(tell('depth.references'), [list]))];
    },
  };
}
