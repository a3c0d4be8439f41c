import type { Plan } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { findingOf, leftOutOf, metric, nothing, planOf, situation, us, voiceIn } from '../tests/support/club.js';
import { chosenList, planMarkdown, planText } from './plan-text.js';

const plan: Plan = planOf({
  chosen: [
    { species: 'vigilia-prima', count: 2 },
    { species: 'vigilia-tertia', count: 4 },
  ],
  introductions: [
    {
      date: '2027-04-02',
      latest: '2027-06-20',
      animals: [
        { id: 'vigilia-prima', species: 'vigilia-prima', count: 2, length: { value: 4, unit: 'cm' }, purchasedOn: '2027-03-03' },
        { id: 'vigilia-tertia', species: 'vigilia-tertia', count: 4 },
      ],
      reasons: [
        { message: 'order.watchedFirst', data: { day: { date: '2027-04-02' }, watch: { value: 30, unit: 'd' } } },
        {
          message: 'order.latest',
          data: { day: { date: '2027-06-20' }, prey: { species: 'vigilia-prima' }, predator: { animal: 'moll' } },
        },
      ],
    },
  ],
  leftOut: [
    leftOutOf({
      species: 'vigilia-secunda',
      because: [
        findingOf({
          message: 'care-tier.unprovided',
          level: 'error',
          subjects: [{ id: 'moll', role: 'animal' }],
          data: { tier: { value: 3, unit: '1' }, lacking: { keys: ['tight-lid'] } },
        }),
      ],
      wouldNeed: [
        { kind: 'provision-made', provisions: ['tight-lid'] },
        { kind: 'more-experience', careTier: 3 },
      ],
    }),
    leftOutOf({ species: 'vigilia-quarta', count: 3, because: [findingOf({})] }),
  ],
  worth: { priority: 12, animals: 6 },
  alternatives: [
    {
      chosen: [
        { species: 'vigilia-tertia', count: 1 },
        { species: 'vigilia-quarta', count: 3 },
      ],
      worth: { priority: 9, animals: 3 },
      gains: ['vigilia-quarta'],
      losses: ['vigilia-prima', 'vigilia-tertia'],
      proven: true,
    },
  ],
  ifChanged: [
    {
      change: { kind: 'without-resident', animal: 'wick' },
      worth: { priority: 15, animals: 7 },
      gains: ['vigilia-secunda'],
      losses: [],
      proven: true,
    },
  ],
  findings: [findingOf({ message: 'care-tier.unknown', level: 'note', outcome: 'cantTell' })],
  summary: { ...nothing, cantTell: { error: 0, warning: 0, note: 1 } },
  cautions: [{ kind: 'never-release', severity: 'duty', species: ['vigilia-prima'], message: 'caution.neverRelease' }],
});

test('a plan as text, whole', () => {
  expect(planText(metric, situation, plan)).toBe(`The tank by the stairs
Plan of 1 March 2027. Of 4 wishes 2 can live together, 2 are left out. No better choice
exists under these rules.

What goes in, and when
----------------------
  2 April 2027
    2 × lamp fish, about 4 cm each, bought on 3 March 2027 and watched apart until then
    4 × Vigilia tertia
      It is watched apart for 30 days first. No later than 20 June 2027: after that
      Moll's perch could swallow the lamp fish at this length.

Days to keep
------------
  - 3 March 2027: buy 2 × lamp fish (about 4 cm each) and watch them apart until 2 April
    2027
  - 2 April 2027: 2 × lamp fish and 4 × Vigilia tertia go in
  - 20 June 2027: last day for 2 × lamp fish and 4 × Vigilia tertia to go in as planned

What is left out, and why
-------------------------
  Moll's perch
    Moll's perch usually fails without special provision (tier 3), and the keeper has
    not made all of it yet. Still to be arranged: a lid without gaps.
    Any one of these would let it in:
      - provision for a lid without gaps
      - a keeper who has kept tier 3 well for a year
  Vigilia quarta (3)
    How hard Wick is to keep is not on record, so it cannot be told whether the keeper
    is ready for it. Ask those who keep it first.
    No single change that was tried would let it in beside what was chosen.

What else would work
--------------------
  - Instead of 2 × lamp fish and 3 × Vigilia tertia, 3 × Vigilia quarta could come in.
  - Another home for Wick would let in Moll's perch.

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
`);
});

test('a plan as Markdown, whole', () => {
  expect(planMarkdown(metric, situation, plan)).toBe(`# The tank by the stairs

Plan of 1 March 2027. Of 4 wishes 2 can live together, 2 are left out. No better choice exists under these rules.

## What goes in, and when

### 2 April 2027

- 2 × lamp fish, about 4 cm each, bought on 3 March 2027 and watched apart until then
- 4 × Vigilia tertia

It is watched apart for 30 days first. No later than 20 June 2027: after that Moll's perch could swallow the lamp fish at this length.

## Days to keep

- 3 March 2027: buy 2 × lamp fish (about 4 cm each) and watch them apart until 2 April 2027
- 2 April 2027: 2 × lamp fish and 4 × Vigilia tertia go in
- 20 June 2027: last day for 2 × lamp fish and 4 × Vigilia tertia to go in as planned

## What is left out, and why

### Moll's perch

Moll's perch usually fails without special provision (tier 3), and the keeper has not made all of it yet. Still to be arranged: a lid without gaps.

Any one of these would let it in:

- provision for a lid without gaps
- a keeper who has kept tier 3 well for a year

### Vigilia quarta (3)

How hard Wick is to keep is not on record, so it cannot be told whether the keeper is ready for it. Ask those who keep it first.

No single change that was tried would let it in beside what was chosen.

## What else would work

- Instead of 2 × lamp fish and 3 × Vigilia tertia, 3 × Vigilia quarta could come in.
- Another home for Wick would let in Moll's perch.

## What to know about this plan

One finding is good to know: run again with --notes to read it.

## Cautions

- Never set an aquarium animal free. If one cannot stay, return it to a shop or a club.

Failed: 0 serious, 0 to decide, 0 good to know. Cannot be told: 0 that would be serious, 0 to decide, 1 good to know.

Library 1.2.3, schema 1.0, species records 2026.1. Figures differ in how sure they are; run again with --depth researcher to read what each finding rests on.
`);
});

describe('the head of a plan', () => {
  const { title: _, ...untitled } = situation;
  const head = (more: Partial<Plan>): string =>
    planText(metric, untitled, { ...plan, ...more })
      .split('\n\n')[0]
      ?.replaceAll('\n', ' ') ?? '';
  const chosen = (count: number): Plan['chosen'] => Array.from({ length: count }, () => ({ species: 'vigilia-prima', count: 1 }));
  const without = (count: number): Plan['leftOut'] => Array.from({ length: count }, () => leftOutOf({}));

  test.each([
    [0, 0, 'There are no wishes.'],
    [1, 0, 'Of one wish one can be granted. No better choice exists under these rules.'],
    [0, 1, 'Of one wish none can be granted, one is left out. No better choice exists under these rules.'],
    [2, 0, 'Of 2 wishes 2 can live together. No better choice exists under these rules.'],
    [0, 2, 'Of 2 wishes none can be granted, 2 are left out. No better choice exists under these rules.'],
    [2, 1, 'Of 3 wishes 2 can live together, one is left out. No better choice exists under these rules.'],
  ])('with %i granted and %i left out', (granted, left, says) => {
    expect(head({ chosen: chosen(granted), leftOut: without(left) })).toContain(`Plan of 1 March 2027. ${says}`);
  });

  test.each([
    [{ weighed: 1, all: true }, ''],
    [{ weighed: 2, all: true }, ' One other choice is worth as much; none of them has fewer doubts and warnings.'],
    [{ weighed: 4, all: true }, ' 3 other choices are worth as much; none of them has fewer doubts and warnings.'],
    [
      { weighed: 4, all: false },
      ' 3 other choices are worth as much; none of them has fewer doubts and warnings. There may be more: not all were compared.',
    ],
    [{ weighed: 1, all: false }, ' Other choices may be worth as much: not all were compared.'],
  ])('among equals of which it knows %o', (equals, says) => {
    const wish = { chosen: chosen(1), leftOut: without(1) };
    expect(head({ ...wish, equals })).toMatch(new RegExp(`No better choice exists under these rules\\.${says.replaceAll('.', '\\.')}$`));
    // A search that stopped has not seen them all anyhow.
    expect(head({ ...wish, equals, proven: false })).not.toContain('worth as much');
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
  expect(chosenList(voiceIn('metric'), plan)).toBe('lamp fish and Vigilia tertia');
});

test('text and Markdown hold the same words', () => {
  const words = (text: string): string[] =>
    text
      .replaceAll(/^(#+|-+| *-) ?/gm, '')
      .replaceAll('\\', '')
      .split(/\s+/);
  expect(words(planMarkdown(metric, situation, plan, { notes: true }))).toEqual(words(planText(metric, situation, plan, { notes: true })));
});

test('a last day that comes from what goes in later says so, whatever its own would be', () => {
  const [first] = plan.introductions as [Plan['introductions'][number]];
  const told = (latest: string): string =>
    planText(metric, situation, { ...plan, introductions: [{ ...first, latest }] }).replaceAll(/\s+/g, ' ');
  expect(told('2027-05-23')).toContain(
    'at this length. So that what comes later is in time, this batch has to be in by 23 May 2027. Days to keep',
  );
  expect(told('2027-06-20')).not.toContain('in time');
});

describe('an order that may not be the best', () => {
  const [first] = plan.introductions as [Plan['introductions'][number]];
  const open: Plan = { ...plan, order: { proven: false, cost: 20, atLeast: 0 } };
  const says = (about: Plan): boolean =>
    planText(metric, situation, about).includes('Another order of entry may be closer to what is usual');

  test('is said, without its points', () => {
    const two = { ...open, introductions: [first, { ...first, date: '2027-05-02' }] };
    expect(says(two)).toBe(true);
    expect(planText(metric, situation, two)).not.toMatch(/\b20\b(?! June)/);
    expect(says({ ...two, order: { ...two.order, proven: true } })).toBe(false);
  });

  test('is not told of a single batch', () => expect(says(open)).toBe(false));
});
