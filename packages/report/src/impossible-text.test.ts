import type { Impossible, Plan } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { leftOutOf, metric, planOf, situation, swallowing } from '../tests/support/club.js';
import { planText } from './plan-text.js';

const impossible: Impossible = {
  species: ['vigilia-prima', 'vigilia-secunda'],
  because: [swallowing('vigilia-prima', 'vigilia-secunda')],
  minimal: true,
};
const alone = leftOutOf({ species: 'vigilia-prima' });
const plan: Plan = planOf({ leftOut: [alone, leftOutOf()], equals: { weighed: 0, all: true }, impossible });

const text = (more: Partial<Plan> = {}): string => planText(metric, situation, { ...plan, ...more });
const oneLine = (said: string): string => said.replaceAll(/\s+/g, ' ');

test('what has to be in and cannot be, whole', () => {
  expect(text().split('\nFailed:')[0]).toBe(`The tank by the stairs
Plan of 1 March 2027. There is no plan, as what has to be in cannot be.

What stands in the way
----------------------
  These have to be in and cannot be together: the lamp fish and Moll's perch. Without
  any one of them the others could be.
    From 14 September 2027 the lamp fish (12.5 cm by then) could swallow Moll's perch
    (6 cm): its mouth takes a body 2 cm deep, and this one is 1.5 cm deep. Such prey is
    its food. Leave one of the two out, or part them by 13 September 2027.
`);
});

describe('says', () => {
  test('of a single wish that it cannot be, and why', () => {
    const single = { ...impossible, species: ['vigilia-prima'] as [string] };
    expect(oneLine(text({ impossible: single }))).toContain('The lamp fish has to be in and cannot be in this tank. From 14 September');
  });

  test('of a single wish with reasons and changes of its own all that once', () => {
    const single = { ...impossible, species: ['vigilia-prima'] as [string] };
    const own = leftOutOf({ species: 'vigilia-prima', because: impossible.because, wouldNeed: [{ kind: 'more-rock', massKg: 3 }] });
    const said = oneLine(text({ impossible: single, leftOut: [own] }));
    expect(said.match(/From 14 September/g)).toHaveLength(1);
    expect(said).toContain('13 September 2027. What would let it in: - 3 kg more rock');
  });

  test('that fewer may stand in the way where that is not known', () => {
    const said = oneLine(text({ impossible: { ...impossible, minimal: false } }));
    expect(said).toContain("cannot be together: the lamp fish and Moll's perch. The search stopped before every way was ruled out. From");
  });

  test('nothing of a choice that was not made', () => {
    expect(text()).not.toMatch(/What goes in|Nothing\.|better choice|worth as much|No single change/);
  });

  test('why others could not be in either, and what would let them in', () => {
    const lost = leftOutOf({
      species: 'vigilia-tertia',
      because: [swallowing('choir', 'wick')],
      wouldNeed: [{ kind: 'without-resident', animal: 'wick' }],
    });
    const said = text({ leftOut: [alone, lost] });
    expect(said).toMatch(/\nWhat is left out, and why\n-+\n {2}Vigilia tertia\n/);
    expect(said).toContain('another home for Wick');
    expect(said).not.toMatch(/^ {2}Lamp fish$/m);
  });
});
