import type { RuleDescription } from '@commensal/schema';
import { expect, test } from 'vitest';
import { de } from './de.js';
import { en } from './en.js';
import { rulesText, ruleText } from './rules-text.js';

const rule: RuleDescription = {
  id: 'echo',
  question: 'Does it answer?',
  scope: 'pair',
  planning: 'recheck',
  monotone: { water: 'better', rock: 'worse', fewerAnimals: 'either', delay: 'neither' },
  needs: ['size.entry', 'tank.mirror'],
  sources: ['reed-1999'],
  defaults: {
    gap: { value: 28, unit: 'd', basis: 'practice', note: 'Days to wait.' },
    share: { value: 1 / 3, unit: '1', basis: 'derived', source: 'reed-1999' },
    slack: { value: 0.5, unit: 'Cel', basis: 'choice' },
  },
};

test('all rules stand in two columns', () => {
  expect(rulesText(en, [rule, { ...rule, id: 'longer-echo', question: 'And now?' }])).toBe(
    `The rules

  echo         Does it answer?
  longer-echo  And now?

Read more of one with: commensal rules ID
`,
  );
});

test('one rule, whole', () => {
  expect(ruleText(en, rule, (key) => `The entry of ${key}.`)).toBe(
    `echo

Asks
  Does it answer?

Looks at
  each pair of animals

In planning
  is checked again for every candidate set

What can help
  more water: can only help
  more rock: can only harm
  fewer animals: can help or harm
  waiting: makes no difference

Needs to know
  the length it comes in at [size.entry]
  tank.mirror

Assumes
  gap = 28 days (common practice, no source). Days to wait.
  share = 0.33 (computed from published figures; reed-1999): share.
  slack = 0.5°C (our choice): slack.

Sources
  The entry of reed-1999.
`,
  );
});

test('how a rule judges stands behind what it asks, where the catalogue tells', () => {
  const text = ruleText(en, { ...rule, id: 'gape' }, String);
  expect(text).toMatch(/^gape\n\nAsks\n {2}Can one .*\n\nHow it judges\n {2}Compares /);
  expect(ruleText(en, rule, String)).not.toContain('How it judges');
});

test('in another language thresholds have their label, and the note says that it is not translated', () => {
  const text = ruleText(
    de,
    { ...rule, id: 'entry-gap', defaults: { gapDays: { value: 28, unit: 'd', basis: 'practice', note: 'Days to wait.' } } },
    String,
  );
  expect(text.replaceAll(/\s+/g, ' ')).toContain(
    'gapDays = 28 Tage (gängige Praxis, ohne Quelle): Abstand zwischen zwei Tagen des Einsetzens. Anmerkung, nicht übersetzt: „Days to wait.“',
  );
  expect(text).toContain('\nQuellen (nicht übersetzt)\n');
});

test('what a rule has none of is said', () => {
  expect(ruleText(en, { ...rule, needs: [], sources: [], defaults: {} }, String)).toMatch(/Assumes\n {2}none\n\nSources\n {2}none\n$/);
});
