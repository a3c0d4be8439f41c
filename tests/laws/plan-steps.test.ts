import { joinSteps, libraryOf, plan, planInSteps, rules } from '@commensal/core';
import { namesIn, planInParts, planMarkdown, planText } from '@commensal/report';
import { en } from '@commensal/report/en';
import type { Plan } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { crowdedScenes, libraryFor } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

it('the two steps of a plan make the plan, and the two parts of its text the text', () => {
  expect(libraryOf(records, standIns).records.size).toBeGreaterThan(0);
  let told = 0;
  fc.assert(
    fc.property(crowdedScenes(5), (scene) => {
      const library = libraryFor(scene);
      const { situation } = scene;
      const whole = plan(situation, library, rules);
      const { choice, isImpossible, leftOut, explain } = planInSteps(situation, library, rules);
      expect(JSON.stringify(joinSteps(choice, explain()))).toBe(JSON.stringify(whole));
      expect([leftOut, isImpossible]).toEqual([whole.leftOut.length, whole.impossible !== undefined]);
      if (isImpossible) return;
      told += 1;
      const document: Plan = {
        $schema: 'https://commensal.example/schema/1.0/plan.schema.json',
        ...whole,
        versions: { code: '0', schema: '1.0', data: 'none' },
      };
      const newcomers = whole.introductions.flatMap(({ animals }) => animals);
      const wished = (situation.wishes ?? []).map(({ species }) => ({ species }));
      const voice = { catalogue: en, units: 'metric' as const, names: namesIn(situation, library, 'en', [...wished, ...newcomers]) };
      for (const [format, print] of [
        ['text', planText],
        ['markdown', planMarkdown],
      ] as const) {
        const { first, rest } = planInParts(format, voice, situation);
        expect(first(choice, leftOut) + rest(document)).toBe(print(voice, situation, document));
      }
    }),
    { numRuns: runs(60) },
  );
  expect(told).toBeGreaterThan(0);
});
