import type { RuleDescription } from '@commensal/schema';
import { expect, test } from 'vitest';
import { en } from './en.js';
import { rulesText, ruleText } from './rules-text.js';

const rule: RuleDescription = {
  id: 'echo',
  question: 'Does it answer?',
  scope: 'pair',
  planning: 'recheck',
  monotone: { water: 'better', rock: 'worse', fewerAnimals: 'either', delay: 'neither' },
  needs: ['size.entry'],
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
  size.entry

Assumes
  gap = 28 days (common practice, no source). Days to wait.
  share = 0.33 (computed from published figures; reed-1999).
  slack = 0.5°C (our choice).

Sources
  The entry of reed-1999.
`,
  );
});

test('what a rule has none of is said', () => {
  expect(ruleText(en, { ...rule, needs: [], sources: [], defaults: {} }, String)).toMatch(/Assumes\n {2}none\n\nSources\n {2}none\n$/);
});
