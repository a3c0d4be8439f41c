import type { Plan } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { findingOf, metric, nothing, situation, us, versions, voiceIn } from '../tests/support/club.js';
import { chosenList, planText } from './plan-text.js';

const plan: Plan = {
  $schema: 'https://commensal.example/schema/1.0/plan.schema.json',
  date: '2027-03-01',
  chosen: [{ species: 'vigilia-prima', count: 2 }],
  introductions: [
    {
      date: '2027-04-02',
      animals: [{ id: 'vigilia-prima', species: 'vigilia-prima', count: 2, length: { value: 4, unit: 'cm' } }],
      reasons: [{ message: 'order.fromToday', data: {} }],
    },
  ],
  leftOut: [
    {
      species: 'vigilia-secunda',
      count: 1,
      because: [
        findingOf({
          message: 'care-tier.unprovided',
          level: 'error',
          subjects: [{ id: 'moll', role: 'animal' }],
          data: { tier: { value: 3, unit: '1' }, lacking: { keys: ['tight-lid'] } },
        }),
      ],
      rather: [],
      wouldNeed: [
        { kind: 'provision-made', provisions: ['tight-lid'] },
        { kind: 'more-experience', careTier: 3 },
      ],
    },
    { species: 'vigilia-tertia', count: 3, because: [findingOf({})], rather: [], wouldNeed: [] },
  ],
  proven: true,
  gap: 0,
  findings: [findingOf({ message: 'care-tier.unknown', level: 'note', outcome: 'cantTell' })],
  summary: { ...nothing, cantTell: { error: 0, warning: 0, note: 1 } },
  cautions: [{ kind: 'never-release', severity: 'duty', species: ['vigilia-prima'], message: 'caution.neverRelease' }],
  staleAcceptances: [],
  versions,
};

test('a plan as text, whole', () => {
  expect(planText(metric, situation, plan)).toBe(
    `The tank by the stairs
Plan of 1 March 2027. Of 3 wishes one can be granted, 2 are left out. No better choice
exists under these rules.

What goes in, and when
----------------------
  2 April 2027
    2 × lamp fish, about 4 cm each
      Nothing stands in the way on the day of the plan.

What is left out, and why
-------------------------
  Moll's perch
    Moll's perch usually fails without special provision (tier 3), and the keeper has
    not made all of it yet. Still to be arranged: a lid without gaps.
    Any one of these would let it in:
      - provision for a lid without gaps
      - a keeper who has kept tier 3 well for a year
  Vigilia tertia (3)
    How hard Wick is to keep is not on record, so it cannot be told whether the keeper
    is ready for it. Ask those who keep it first.
    No single change that was tried would let it in beside what was chosen.

What to know about this plan
----------------------------
  One finding is good to know: run again with --notes to read it.

Cautions
--------
  Never set an aquarium animal free. If one cannot stay, return it to a shop or a club.

Failed: 0 serious, 0 to decide, 0 good to know. Cannot be told: 0 that would be serious,
0 to decide, 1 good to know.
Library 1.2.3, schema 1.0, species records 2026.1. Figures differ in how sure they are;
run again with --depth researcher to read what each finding rests on.
`,
  );
});

describe('the head of a plan', () => {
  const { title: _, ...untitled } = situation;
  const head = (more: Partial<Plan>): string =>
    planText(metric, untitled, { ...plan, ...more })
      .split('\n\n')[0]
      ?.replaceAll('\n', ' ') ?? '';
  const chosen = (count: number): Plan['chosen'] => Array.from({ length: count }, () => ({ species: 'vigilia-prima', count: 1 }));
  const leftOut = (count: number): Plan['leftOut'] =>
    Array.from({ length: count }, () => ({ species: 'vigilia-prima', count: 1, because: [], rather: [], wouldNeed: [] }));

  test.each([
    [0, 0, 'There are no wishes.'],
    [1, 0, 'Of one wish one can be granted. No better choice exists under these rules.'],
    [0, 1, 'Of one wish none can be granted, one is left out. No better choice exists under these rules.'],
    [2, 0, 'Of 2 wishes 2 can live together. No better choice exists under these rules.'],
    [0, 2, 'Of 2 wishes none can be granted, 2 are left out. No better choice exists under these rules.'],
    [2, 1, 'Of 3 wishes 2 can live together, one is left out. No better choice exists under these rules.'],
  ])('with %i granted and %i left out', (granted, left, says) => {
    expect(head({ chosen: chosen(granted), leftOut: leftOut(left) })).toContain(`Plan of 1 March 2027. ${says}`);
  });

  test('of a search that stopped says by how much it may be better', () => {
    expect(head({ proven: false, gap: 4 })).toContain(
      'The search stopped before every other choice was ruled out; by priority one could be better by 4 at most.',
    );
  });
});

test('nothing to introduce is said', () => {
  expect(planText(metric, situation, { ...plan, chosen: [], introductions: [] })).toContain('----------------------\n  Nothing.\n');
});

test('notes are printed where they are asked for', () => {
  const text = planText(metric, situation, plan, { notes: true });
  expect(text).toContain('Cannot be told, good to know\n    How hard Wick is to keep');
  expect(text).not.toContain('--notes');
});

test('in US units no centimetre is left', () => {
  const text = planText(us, situation, plan);
  expect(text).toContain('about 1.57 in each');
  expect(text).not.toMatch(/\bcm\b/);
});

test('the chosen species in a row', () => {
  const two = { ...plan, chosen: [...plan.chosen, { species: 'vigilia-tertia', count: 1 }] };
  expect(chosenList(voiceIn('metric'), two)).toBe('lamp fish and Vigilia tertia');
});
