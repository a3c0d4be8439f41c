import type { SpeciesRecord } from '@commensal/schema';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rankOfVerdict } from '../../packages/core/src/whatif/columns/kernel.js';
import { START } from '../support/arbitraries.js';
import { compareWithCheck, nothingSeen, servedIn, type Varying, varyings } from '../support/kernels.js';
import { runs } from '../support/runs.js';

/** A fish of which nothing tells how large it is, which comes in beside one that is told. */
const UNMEASURED: Varying = {
  scene: {
    situation: {
      $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
      date: START,
      tank: { water: { value: 200, unit: 'L' } },
      residents: [{ id: 'there', species: 'gramma-loreto', length: { value: 6, unit: 'cm' } }],
      introductions: [{ date: '2027-05-01', animals: [{ id: 'new', species: 'unus-primus' }] }],
    },
    invented: [
      {
        $schema: 'https://commensal.example/schema/1.0/species.schema.json',
        id: 'unus-primus',
        addedIn: '2026.1',
        taxon: { scientificName: 'Unus primus', genus: 'Unus', family: 'Exemplidae' },
        vernacularNames: [{ name: 'first example', language: 'en' }],
        sources: [],
        form: 'fish',
      } as unknown as SpeciesRecord,
    ],
    withStandIns: true,
  },
  picks: [true],
  uncertain: [],
  thresholds: undefined,
  seed: 1,
};

it('how large batches are in a scenario is the same by columns as by check', () => {
  const seen = nothingSeen();
  // Where batches may follow each other closely the days do not settle it.
  const thresholds = fc.constantFrom(
    { 'entry-gap': { gapDays: 0 } },
    { 'entry-gap': { gapDays: 0 } },
    { 'entry-gap': { gapDays: 0, largeShare: 0.4 } },
    { 'entry-gap': { gapDays: 0, largeShare: 0.3 } },
    { 'entry-gap': { gapDays: 0, largeShare: 0.8, feedShare: 0.02 } },
    { 'entry-gap': { largeShare: 1 } },
    undefined,
  );
  fc.assert(
    fc.property(varyings(thresholds), (varying) => compareWithCheck('entry-gap', varying, 20, seen)),
    { numRuns: runs(120), examples: [[UNMEASURED]] },
  );
  expect(servedIn(seen)).toBeGreaterThan(1000 * Math.min(1, runs(1)));
  expect(seen.left).toBeLessThan(servedIn(seen) / 100);
  // What varies that a kernel reads as it is is left to the rule.
  expect(seen.without).toBeGreaterThan(0);
  expect([...seen.ranks.keys()].sort((one, other) => one - other)).toEqual([
    rankOfVerdict({ outcome: 'inapplicable', level: 'note' }),
    rankOfVerdict({ outcome: 'passed', level: 'note' }),
    rankOfVerdict({ outcome: 'cantTell', level: 'note' }),
    rankOfVerdict({ outcome: 'failed', level: 'warning' }),
  ]);
});
