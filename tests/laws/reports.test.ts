import { check, plan, rules, stockOf } from '@commensal/core';
import { checkProblems, planProblems, situationProblems, speciesProblems } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deepFrozen } from '../../packages/core/tests/support/invented.js';
import { libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

const VERSIONS = { code: '0.0.0', schema: '1.0', data: '2026.1' };
const BASE = 'https://commensal.example/schema/1.0';

const checked = (scene: Scene): ReturnType<typeof check> => check(stockOf(scene.situation, libraryFor(scene)).stock, rules);

describe('reports', () => {
  it('what the laws are tried on is valid: situations and records', () => {
    fc.assert(
      fc.property(scenes({ wishes: 3 }), ({ situation, invented }) => {
        expect(situationProblems(situation)).toEqual([]);
        for (const record of invented) expect(speciesProblems(record)).toEqual([]);
      }),
      { numRuns: runs(1000) },
    );
  });

  it('every check report survives JSON and validates', () => {
    let findings = 0;
    fc.assert(
      fc.property(scenes({ wishes: 2 }), (scene) => {
        const report = { $schema: `${BASE}/check.schema.json`, ...checked(scene), versions: VERSIONS };
        const read = JSON.parse(JSON.stringify(report));
        expect(read).toEqual(report);
        expect(checkProblems(read)).toEqual([]);
        findings += report.findings.length;
      }),
      { numRuns: runs(1000) },
    );
    expect(findings).toBeGreaterThan(0);
  });

  it('every plan survives JSON and validates', () => {
    let wishes = 0;
    fc.assert(
      fc.property(scenes({ wishes: 3, residents: 1, batches: 1 }), (scene) => {
        const report = { $schema: `${BASE}/plan.schema.json`, ...plan(scene.situation, libraryFor(scene)), versions: VERSIONS };
        const read = JSON.parse(JSON.stringify(report));
        expect(read).toEqual(report);
        expect(planProblems(read)).toEqual([]);
        wishes += report.chosen.length + report.leftOut.length;
      }),
      { numRuns: runs(1000) },
    );
    expect(wishes).toBeGreaterThan(0);
  });

  it('no two findings share a key', () => {
    fc.assert(
      fc.property(scenes(), (scene) => {
        const keys = checked(scene).findings.map(({ key }) => key);
        expect(new Set(keys).size).toBe(keys.length);
      }),
      { numRuns: runs(1000) },
    );
  });

  it('whatever cannot be told names a field that is missing, or one that would settle it', () => {
    let doubts = 0;
    fc.assert(
      fc.property(scenes(), (scene) => {
        for (const finding of checked(scene).findings) {
          if (finding.outcome !== 'cantTell') continue;
          doubts += 1;
          const named = finding.data.missing?.keys ?? finding.data.settle?.keys ?? [];
          expect(named.length, finding.key).toBeGreaterThan(0);
        }
      }),
      { numRuns: runs(1000) },
    );
    expect(doubts).toBeGreaterThan(0);
  });

  it('the summary counts what is listed', () => {
    fc.assert(
      fc.property(scenes(), (scene) => {
        const { findings, summary } = checked(scene);
        for (const outcome of ['failed', 'cantTell'] as const) {
          const listed = findings.filter((finding) => finding.outcome === outcome);
          for (const level of ['error', 'warning', 'note'] as const) {
            expect(summary[outcome][level]).toBe(listed.filter((finding) => finding.level === level).length);
          }
          for (const { id } of rules) expect(summary.rules[id]?.[outcome]).toBe(listed.filter(({ rule }) => rule === id).length);
        }
      }),
      { numRuns: runs(1000) },
    );
  });

  it('the same input gives the same bytes, and nothing of it is changed', () => {
    fc.assert(
      fc.property(scenes({ wishes: 2, residents: 2, batches: 1 }), (scene) => {
        const bytes = (): string => JSON.stringify([checked(scene), plan(scene.situation, libraryFor(scene))]);
        deepFrozen(scene);
        expect(bytes()).toBe(bytes());
      }),
      { numRuns: runs(1000) },
    );
  });
});
