import { type AnyRule, check, familyBatch, stockOf } from '@commensal/core';
import type { Introduction, Situation } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayAfter, libraryFor, type Scene, scenes, START } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

/** Who is apart from whom, whoever is the earlier. */
function apart(scene: Scene, situation: Situation): string[] {
  const { findings } = check(stockOf(situation, libraryFor(scene)).stock, [familyBatch as AnyRule]);
  return findings.map(({ subjects }) =>
    subjects
      .map(({ id }) => id)
      .sort()
      .join(' '),
  );
}

/** Nobody leaves, nothing is re-laid, and no newcomer shares its day with a resident: those days excuse. */
const undisturbed = scenes({ residents: 2, batches: 3 }).map((scene) => {
  const residents = (scene.situation.residents ?? []).map((one) => (one.enteredOn === START ? { ...one, enteredOn: dayAfter(-1) } : one));
  return { ...scene, situation: { ...scene.situation, residents, events: [] } };
});

const ofKin = (scene: Scene, group: string, species: string): boolean => {
  const { records } = libraryFor(scene);
  const record = records.get(species);
  return (record?.kinGroup?.value ?? record?.taxon.family.toLowerCase()) === group;
};

describe('family-batch', () => {
  it('splitting kin over days never removes a finding', () => {
    let added = 0;
    fc.assert(
      fc.property(undisturbed, fc.nat(5), (scene, which) => {
        const { situation } = scene;
        const newcomers = (situation.introductions ?? []).flatMap(({ animals }) => animals);
        const chosen = newcomers[which % Math.max(1, newcomers.length)];
        if (chosen === undefined) return;
        const rest = (situation.introductions ?? []).map((batch) => ({
          ...batch,
          animals: batch.animals.filter((animal) => animal !== chosen),
        }));
        // A day of its own, before or after all others.
        const split: Introduction[] = [
          ...rest.filter(({ animals }) => animals.length > 0),
          { date: dayAfter(which % 2 === 0 ? 300 : 7), animals: [chosen] },
        ];
        const before = apart(scene, situation);
        const after = apart(scene, { ...situation, introductions: split });
        expect(after).toEqual(expect.arrayContaining(before));
        if (after.length > before.length) added += 1;
      }),
      { numRuns: runs(1500) },
    );
    expect(added).toBeGreaterThan(0);
  });

  it('joining kin of two days never adds one', () => {
    let removed = 0;
    fc.assert(
      fc.property(undisturbed, fc.constantFrom('these', 'those', 'exemplidae', 'specimenidae'), (scene, group) => {
        const { situation } = scene;
        const batches = situation.introductions ?? [];
        const first = batches.find(({ animals }) => animals.some(({ species }) => ofKin(scene, group, species)));
        if (first === undefined) return;
        const isKin = ({ species }: { species: string }): boolean => ofKin(scene, group, species);
        const joined = batches
          .map((batch) => ({ ...batch, animals: batch.animals.filter((animal) => !isKin(animal)) }))
          .filter(({ animals }) => animals.length > 0);
        const kin = batches.flatMap(({ animals }) => animals.filter(isKin));
        const before = apart(scene, situation);
        const after = apart(scene, { ...situation, introductions: [...joined, { date: first.date, animals: kin }] });
        expect(before).toEqual(expect.arrayContaining(after));
        if (after.length < before.length) removed += 1;
      }),
      { numRuns: runs(1500) },
    );
    expect(removed).toBeGreaterThan(0);
  });
});
