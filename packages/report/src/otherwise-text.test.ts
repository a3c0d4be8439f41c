import type { Alternative, IfChanged, Plan } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { metric, planOf } from '../tests/support/club.js';
import { otherwiseSection } from './otherwise-text.js';

const lines = (more: Partial<Plan>): string[] => otherwiseSection(metric, planOf(more)).map(({ text }) => text);
const worth = { priority: 5, animals: 3 };
const one = (species: string, count = 1): Plan['chosen'][number] => ({ species, count });

describe('another set', () => {
  const other = (more: Partial<Alternative>): Alternative => ({
    chosen: [one('vigilia-secunda')],
    worth,
    gains: ['vigilia-secunda'],
    losses: ['vigilia-prima'],
    proven: true,
    ...more,
  });

  test('is told by what changes places', () => {
    expect(lines({ chosen: [one('vigilia-prima')], alternatives: [other({})] })).toEqual([
      "Instead of the lamp fish, Moll's perch could come in.",
    ]);
  });

  test('of which some more or fewer come in tells how many', () => {
    const chosen = [one('vigilia-prima', 8), one('vigilia-tertia', 2)];
    const alternative = other({
      chosen: [one('vigilia-prima', 5), one('vigilia-secunda'), one('vigilia-tertia', 3)],
      gains: ['vigilia-secunda', 'vigilia-tertia'],
    });
    expect(lines({ chosen, alternatives: [alternative] })).toEqual([
      "Instead of 3 × lamp fish, Moll's perch and 1 × Vigilia tertia could come in.",
    ]);
  });

  test('that may not be the best of its kind says so', () => {
    expect(lines({ chosen: [one('vigilia-prima')], alternatives: [other({ proven: false })] })).toEqual([
      "Instead of the lamp fish, Moll's perch could come in. A better exchange of this kind was not ruled out.",
    ]);
  });

  test('that costs nothing has nothing in its place', () => {
    expect(lines({ alternatives: [other({ losses: [] })] })).toEqual(["Moll's perch could come in."]);
  });
});

describe('a change of the tank', () => {
  const changed = (more: Partial<IfChanged>): IfChanged => ({
    change: { kind: 'without-resident', animal: 'wick' },
    worth,
    gains: ['vigilia-secunda'],
    losses: [],
    proven: true,
    ...more,
  });

  test('is told with what it lets in', () => {
    expect(lines({ ifChanged: [changed({}), changed({ change: { kind: 'rock-relaid', date: '2027-04-02' } })] })).toEqual([
      "Another home for Wick would let in Moll's perch.",
      "Laying the rock anew on 2\u00A0April 2027 would let in Moll's perch.",
    ]);
  });

  test('is told with what would then be left out, and that more was not ruled out', () => {
    expect(lines({ ifChanged: [changed({ losses: ['vigilia-prima'], proven: false })] })).toEqual([
      "Another home for Wick would let in Moll's perch; the lamp fish would then be left out. More than that was not ruled out.",
    ]);
  });

  test('lets in more of what is chosen', () => {
    expect(lines({ chosen: [one('vigilia-prima', 2)], ifChanged: [changed({ gains: ['vigilia-prima', 'vigilia-secunda'] })] })).toEqual([
      "Another home for Wick would let in more of the lamp fish and Moll's perch.",
    ]);
  });

  test('that lets in nothing else is not told', () => expect(lines({ ifChanged: [changed({ gains: [] })] })).toEqual([]));
});
