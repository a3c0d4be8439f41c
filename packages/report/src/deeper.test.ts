/** A report at each depth, whole, and in every language. */
import type { CheckReport, Finding, Plan, Situation } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { findingOf, leftOutOf, nothing, plain, planOf, situation, swallowing, versions, voiceIn } from '../tests/support/club.js';
import { gapRule, grounds, hurried, library } from '../tests/support/deep.js';
import { checkText } from './check-text.js';
import { de } from './de.js';
import { DEPTHS, type Depth } from './depth.js';
import { en } from './en.js';
import { ja } from './ja.js';
import { namesIn } from './names.js';
import { planText } from './plan-text.js';
import { sayQuestion } from './question.js';
import type { Voice } from './voice.js';

const tooClose = findingOf({
  key: 'entry-gap:animal=wick',
  rule: 'entry-gap',
  message: 'entry-gap.tooClose',
  when: '2027-03-15',
  data: {
    gap: { value: 14, unit: 'd' },
    needed: { value: 21, unit: 'd' },
    day: { date: '2027-03-15' },
    dayBefore: { date: '2027-03-01' },
    earliest: { date: '2027-03-22' },
  },
});

const report = (findings: Finding[]): CheckReport => ({
  $schema: 'https://commensal.example/schema/1.0/check.schema.json',
  date: '2027-03-01',
  findings,
  summary: nothing,
  cautions: [],
  staleAcceptances: [],
  versions,
});

const checked = (depth: Depth, findings: Finding[], about: Situation = situation, voice: Voice = voiceIn('metric')): string =>
  plain(checkText(voice, about, report(findings), { depth, grounds }));
const planned = (depth: Depth, more: Partial<Plan>): string =>
  plain(planText(voiceIn('metric'), situation, planOf(more), { depth, grounds }));

const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

const eaten = swallowing('wick', 'moll', { basis: 'recalled' });

test('for a keeper a report is what it is without a depth', () => {
  expect(checked('keeper', [eaten, tooClose], hurried)).toBe(checkText(voiceIn('metric'), hurried, report([eaten, tooClose])));
});

test('for an adviser the figures stand beneath, then the thresholds; nothing is named by its id', () => {
  const text = checked('adviser', [eaten]);
  expect(text).toContain(`part them by 13 September 2027.
      - failed, serious: an animal is likely to die or suffer
      - first day: 14 September 2027; appetite for such prey: its usual food; length of
        the predator: 12.5 cm; length of the prey: 6 cm; body depth its mouth takes:
        2 cm; body depth of the prey: 1.5 cm; last safe day: 13 September 2027

What the rules take as given
----------------------------
  Can one of these animals swallow the other?
    - share of its opening that a mouth takes when the prey is squeezed: 1.25
    - how far beyond the time looked at growth is followed: 60 years

Failed:`);
  expect(text).not.toMatch(/gape|predator=|squeeze\b|our choice|Sources/);
});

test('for a researcher come what it rests on, the records and the sources', () => {
  expect(checked('researcher', [eaten])).toBe(`The tank by the stairs
Check of 1 March 2027

What was found
--------------
  Serious
    From 14 September 2027 Wick (12.5 cm by then) could swallow Moll's perch (6 cm): its
    mouth takes a body 2 cm deep, and this one is 1.5 cm deep. Such prey is its food.
    Leave one of the two out, or part them by 13 September 2027.
      - failed, serious: an animal is likely to die or suffer
      - first day: 14 September 2027; appetite for such prey: its usual food; length of
        the predator: 12.5 cm; length of the prey: 6 cm; body depth its mouth takes:
        2 cm; body depth of the prey: 1.5 cm; last safe day: 13 September 2027
      - rule gape: Can one of these animals swallow the other?
      - weakest basis: from memory, unchecked; key gape:predator=wick,prey=moll

What the rules take as given
----------------------------
  Rule gape: Can one of these animals swallow the other?
    - share of its opening that a mouth takes when the prey is squeezed [squeeze]: 1.25;
      computed from published figures; Lark & Moss
    - how far beyond the time looked at growth is followed [lookBeyondYears]: 60 years;
      our choice
    - sources: Reed 1999

What is on record of the species
--------------------------------
  Lamp fish (Vigilia prima), as read by gape
    - the mouth [shape.lowerJaw]: 0.163 of standard length; measured; Reed 1999; “Two
      specimens.”
    - the length it grows to [growth.asymptoticLength]: 42.5 cm standard length (34.9 cm
      to 45.5 cm, range observed); measured; Lark & Moss
    - how fast it grows [growth.rate]: 0.47 a year; measured; lost-key
    - the length it comes in at [size.entry]: 4 cm to 8 cm total length; common
      practice, no source
    - whether it eats fishes [feeding.fishEating]: its usual food; from memory,
      unchecked
    - the body depth [shape.bodyDepth]: not on record; the genus Vigilia stands in with
      0.4 of standard length; taken from relatives; “median over 3 species”

  Moll's perch (Vigilia secunda), as read by gape
    - the mouth [shape.lowerJaw]: not on record; the family Inventidae stands in with
      0.2 of standard length; taken from relatives; Reed 1999
    - the body depth [shape.bodyDepth]: not on record; the genus Vigilia stands in with
      0.4 of standard length; taken from relatives; “median over 3 species”
    - the length it grows to [growth.asymptoticLength]: not on record; instead the
      greatest length on record [size.maximum]: 12 cm total length; from memory,
      unchecked
    - Not on record: how fast it grows [growth.rate]; the length it comes in at
      [size.entry]; whether it eats fishes [feeding.fishEating]

Sources
-------
  Lark, Moss. On Mouths.
  lost-key
  Reed (1999). On Tanks. [Seen.]

Failed: 0 serious, 0 to decide, 0 good to know. Cannot be told: 0 that would be serious,
0 to decide, 0 good to know.
Library 1.2.3, schema 1.0, species records 2026.1.
`);
});

describe('findings that are told in one sentence', () => {
  const others = [swallowing('wick', 'choir'), swallowing('wick', 'choir#2', { when: '2027-12-01', basis: 'measured' })];
  const text = checked('researcher', [swallowing('wick', 'moll'), ...others]);

  test('have their figures, keys and bases each', () => {
    expect(text).toContain("      - Moll's perch – first day: 14 September 2027; appetite");
    expect(text).toContain('      - Choir #2 – first day: 1 December 2027; appetite');
    expect(text).toContain('      - Choir – weakest basis: common practice, no source; key\n        gape:predator=wick,prey=choir\n');
    expect(text).toContain('      - Choir #2 – weakest basis: measured; key gape:predator=wick,prey=choir#2\n');
    expect(text.match(/failed, serious/g)).toHaveLength(1);
  });

  test('have them once where they are the same', () => {
    const data = { tier: { value: 3, unit: '1' }, lacking: { keys: ['tight-lid'] } };
    const hard = ['wick', 'moll'].map((id) =>
      findingOf({
        key: `care-tier:animal=${id}`,
        rule: 'care-tier',
        message: 'care-tier.unprovided',
        subjects: [{ id, role: 'animal' }],
        data,
      }),
    );
    expect(checked('adviser', hard).match(/tier of the animal: 3; still to be arranged: a lid without gaps/g)).toHaveLength(1);
  });
});

describe('a threshold that the settings changed', () => {
  test('is marked beneath the finding and in the list, for an adviser without its name', () => {
    const text = checked('adviser', [tooClose], hurried);
    expect(text).toContain('      - time between batches: 21 days as set for this tank, otherwise 28 days\n');
    expect(text).toContain('    - time between batches: 21 days as set for this tank, otherwise 28 days\n');
  });

  test('is listed even where its rule found nothing, as that may be why', () => {
    const text = oneLine(checked('adviser', [], hurried));
    expect(text).toContain(`${sayQuestion(en, gapRule)} - time between batches: 21 days`);
    expect(checked('adviser', [])).not.toContain('What the rules take as given');
  });

  test('is not marked where it is set to what it is anyway', () => {
    const same = { ...situation, settings: { thresholds: { 'entry-gap': { gapDays: 28 } } } };
    expect(checked('adviser', [tooClose], same)).toContain('    - time between batches: 28 days\n');
    expect(checked('adviser', [tooClose], same)).not.toContain('for this tank');
  });

  test('has its name and what its usual value rests on for a researcher', () => {
    expect(oneLine(checked('researcher', [tooClose], hurried))).toContain(
      '- time between batches [gapDays]: 21 days as set for this tank, otherwise 28 days; common practice, no source',
    );
  });
});

test('in US units thresholds say that they are in the units of settings', () => {
  const text = checked('adviser', [tooClose], situation, voiceIn('us'));
  expect(text).toContain('\n  In the units in which settings give them.\n');
  expect(checked('adviser', [tooClose])).not.toContain('In the units in which');
});

test('what is only good to know counts for nothing unless it is printed', () => {
  const note = { ...tooClose, level: 'note' } as const;
  expect(checked('researcher', [note])).not.toContain('What the rules take as given');
  const text = checkText(voiceIn('metric'), situation, report([note]), { depth: 'researcher', grounds, notes: true });
  expect(text).toContain('- failed: good to know\n');
  expect(text).toContain('What the rules take as given');
});

test("a rule that the grounds do not hold, such as somebody else's, is named by its id", () => {
  const strange = findingOf({
    rule: 'vendor/glow',
    key: 'vendor/glow:animal=wick',
    message: 'care-tier.unknown',
    data: { mostLux: { value: 9, unit: '1' } },
  });
  const text = checked('researcher', [strange]);
  expect(text).toContain(
    '      - most lux: 9\n      - vendor/glow\n      - weakest basis: common practice, no source; key vendor/glow:animal=wick',
  );
});

describe('a plan', () => {
  const leftOut: Plan['leftOut'] = [leftOutOf({ because: [eaten] })];
  const introductions: Plan['introductions'] = [
    {
      date: '2027-04-02',
      animals: [{ id: 'vigilia-prima', species: 'vigilia-prima', count: 1 }],
      reasons: [
        { message: 'order.gap', data: { gap: { value: 28, unit: 'd' }, dayBefore: { date: '2027-03-05' } } },
        { message: 'order.fromToday', data: { day: { date: '2027-04-02' } } },
      ],
    },
  ];

  test('has the figures of its reasons, without the day that stands above them', () => {
    expect(planned('adviser', { introductions })).toContain(`  2 April 2027
    1 × lamp fish
      28 days after the batch before it. Nothing stands in the way on the day of the
      plan.
        - time between batches: 28 days; day of the batch before: 5 March 2027

`);
    expect(planned('keeper', { introductions })).not.toContain('day of the batch before');
  });

  test('has them beneath what was left out and what is found, and one list of thresholds', () => {
    const text = planned('adviser', { leftOut, findings: [tooClose] });
    expect(text.match(/^ {6}- failed/gm)).toHaveLength(2);
    expect(text).toContain('length of\n        the predator: 12.5 cm');
    expect(text).toContain('  Can one of these animals swallow the other?\n    - share');
    expect(oneLine(text)).toContain(`${sayQuestion(en, gapRule)} - time between batches: 28 days`);
  });

  test('has the records and sources of what was left out', () => {
    const text = planned('researcher', { leftOut });
    expect(text).toContain("  Moll's perch (Vigilia secunda), as read by gape");
    expect(text).toContain('  Reed (1999). On Tanks. [Seen.]');
    expect(text).not.toContain('Never Opened');
  });
});

describe.each([en, de, ja].map((catalogue) => [catalogue.language, catalogue] as const))('in %s', (language, catalogue) => {
  const voice: Voice = { catalogue, units: 'metric', names: namesIn(hurried, library, language) };
  const findings = [eaten, tooClose, findingOf({ outcome: 'cantTell', level: 'note' })];
  const at = (depth: Depth): string => checkText(voice, hurried, report(findings), { depth, grounds, notes: true });

  test('each depth holds the sentences of the one before it, and more', () => {
    const sentences = at('keeper')
      .split('\n')
      .filter((line) => /^ {4}\S/.test(line));
    expect(sentences.length).toBeGreaterThan(5);
    const lengths = DEPTHS.map((depth) => {
      const lines = at(depth).split('\n');
      expect(sentences.filter((line) => !lines.includes(line))).toEqual([]);
      return lines.length;
    });
    expect(lengths).toEqual([...lengths].sort((one, other) => one - other));
    expect(new Set(lengths).size).toBe(DEPTHS.length);
  });

  test('nothing is left empty', () => {
    for (const depth of DEPTHS) expect(at(depth)).not.toMatch(/[{}]|[:;] none(?=[;.]|$)|undefined|NaN|\[object|;\s*;|:\s*;|\u00A0/m);
  });
});
