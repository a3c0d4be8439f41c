import { check, dayOf, OUTCOMES, plan, rules, runnerOf, scenarioOf, stockOf, studyOf } from '@commensal/core';
import type { Finding, Level, Situation, Study, StudyVariable } from '@commensal/schema';
import { studyProblems } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crowdedScenes, libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

const LEVELS: readonly Level[] = ['note', 'warning', 'error'];

/** Variables of every sort for whatever a scene has; which of them vary is drawn. */
function variablesOf(situation: Situation): StudyVariable[] {
  const spread = (low: number, high: number): StudyVariable['over'] => ({ kind: 'uniform', low, high });
  const { tank, residents = [], introductions = [] } = situation;
  return [
    { name: 'water', at: ['/situation/tank/water'], unit: 'L', over: spread(40, 900) },
    ...(tank.length === undefined
      ? []
      : [{ name: 'long', at: ['/situation/tank/length'] as [string], unit: '[in_i]', over: spread(20, 90) }]),
    ...(tank.rock?.mass === undefined
      ? []
      : [{ name: 'rock', at: ['/situation/tank/rock/mass'] as [string], unit: 'kg', over: spread(1, 90) }]),
    ...(tank.temperature === undefined
      ? []
      : [
          {
            name: 'warm',
            at: ['/situation/tank/temperature'] as [string],
            unit: 'Cel',
            over: { kind: 'normal' as const, mean: 26, standardDeviation: 2 },
          },
        ]),
    ...(tank.feedingsPerDay === undefined
      ? []
      : [
          {
            name: 'feedings',
            at: ['/situation/tank/feedingsPerDay'] as [string],
            over: { kind: 'list' as const, values: [0, 1, 4] as [number, ...number[]] },
          },
        ]),
    ...residents.slice(0, 1).flatMap(({ length }, index): StudyVariable[] =>
      length === undefined
        ? []
        : [
            {
              name: `resident_${index}`,
              at: [`/situation/residents/${index}/length`],
              unit: 'cm',
              over: { kind: 'log-normal', low: 3, high: 20 },
            },
          ],
    ),
    ...introductions.slice(0, 1).flatMap(({ animals: [first] }, index): StudyVariable[] => [
      {
        name: `entry_${index}`,
        at: [`/situation/introductions/${index}/date`],
        unit: 'd',
        over: { kind: 'range', from: 0, to: 90, step: 30 },
      },
      ...(first?.length === undefined
        ? []
        : [
            {
              name: `newcomer_${index}`,
              at: [`/situation/introductions/${index}/animals/0/length`] as [string],
              unit: 'cm',
              over: { kind: 'triangular' as const, low: 1, mode: 4, high: 12 },
            },
          ]),
      {
        name: `kind_${index}`,
        at: [`/situation/introductions/${index}/animals/0/species`],
        over: {
          kind: 'words',
          words: ['gramma-loreto', 'pterois-volitans', first?.species ?? 'gramma-loreto'].filter(
            (id, at, all) => all.indexOf(id) === at,
          ) as [string, ...string[]],
        },
      },
    ]),
  ];
}

interface Choice {
  readonly scene: Scene;
  readonly varying: readonly boolean[];
  readonly uncertain: Study['uncertain'];
  readonly seed: number;
}

const choices = (of: fc.Arbitrary<Scene>): fc.Arbitrary<Choice> =>
  fc.record({
    scene: of,
    varying: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
    uncertain: fc.subarray(['growth' as const, 'shape' as const, 'lengths' as const]),
    seed: fc.nat(),
  });

const SCENARIOS = 10;

const studyFor = ({ scene: { situation }, varying, uncertain, seed }: Choice, outputs: Study['outputs']): Study => ({
  $schema: 'https://commensal.example/schema/1.0/study.schema.json',
  situation,
  vary: variablesOf(situation).filter((_, at) => varying[at] === true),
  uncertain: uncertain ?? [],
  design: { kind: 'monte-carlo', scenarios: SCENARIOS },
  seed,
  outputs,
});

/** Calls `visit` with each scenario of a study: its row by column, and its documents. */
function eachScenario(
  choice: Choice,
  outputs: Study['outputs'],
  visit: (told: (column: string) => number, scenario: ReturnType<typeof scenarioOf>) => void,
): void {
  const library = libraryFor(choice.scene);
  const document = studyFor(choice, outputs);
  expect(studyProblems(document)).toEqual([]);
  const { study, problems } = studyOf(document, library, rules);
  expect(problems).toEqual([]);
  if (study === undefined) return;
  const run = runnerOf(study);
  const row = new Float64Array(study.columns.length);
  for (let scenario = 0; scenario < SCENARIOS; scenario += 1) {
    run(scenario, row);
    const told = (column: string): number => {
      const at = study.columns.findIndex(({ name }) => name === column);
      expect(at, column).toBeGreaterThanOrEqual(0);
      return row[at] as number;
    };
    const values = row.slice(1, 1 + study.variables.length);
    visit(told, scenarioOf(document.situation, library, study.variables, values));
  }
}

const columnOf = (rule: string): string => rule.replaceAll('-', '_');

describe('a scenario of a study is what check finds in its documents', () => {
  it('the worst outcome of every rule, its level, and the first day of failure', () => {
    const seen = new Set<number>();
    let days = 0;
    const outputs: Study['outputs'] = [{ kind: 'outcome' }, ...rules.map(({ id }) => ({ kind: 'first-failure' as const, rule: id }))];
    fc.assert(
      fc.property(choices(scenes()), (choice) => {
        eachScenario(choice, outputs, (told, { situation, library }) => {
          const { findings, summary } = check(stockOf(situation, library).stock, rules);
          for (const { id } of rules) {
            const counts = summary.rules[id];
            const worst = (['untested', 'failed', 'cantTell', 'passed', 'inapplicable'] as const).find(
              (outcome) => (counts?.[outcome] ?? 0) > 0,
            );
            const outcome = OUTCOMES.indexOf(worst ?? 'inapplicable');
            const ofRule = findings.filter(({ rule }) => rule === id);
            const levels = ofRule.filter((finding) => finding.outcome === worst).map(({ level }) => LEVELS.indexOf(level));
            const first = firstDay(ofRule, situation.date);
            seen.add(outcome);
            if (!Number.isNaN(first)) days += 1;
            expect([id, told(`${columnOf(id)}_outcome`), told(`${columnOf(id)}_level`), told(`${columnOf(id)}_first`)]).toEqual([
              id,
              outcome,
              levels.length === 0 ? Number.NaN : Math.max(...levels),
              first,
            ]);
          }
        });
      }),
      { numRuns: runs(120) },
    );
    expect(seen.size).toBeGreaterThanOrEqual(4);
    expect(days).toBeGreaterThan(0);
  });

  it('plans as well', () => {
    let chosen = 0;
    fc.assert(
      fc.property(choices(crowdedScenes(4)), (choice) => {
        eachScenario(choice, [{ kind: 'best-set' }, { kind: 'chosen' }], (told, { situation, library }) => {
          const planned = plan(situation, library, rules);
          expect(told('set_worth')).toBe(planned.worth.priority);
          expect(told('set_animals')).toBe(planned.chosen.reduce((sum, { count }) => sum + count, 0));
          for (const { species, count } of planned.chosen) {
            chosen += 1;
            expect(told(`chosen_${columnOf(species)}`)).toBe(count);
          }
        });
      }),
      { numRuns: runs(15) },
    );
    expect(chosen).toBeGreaterThan(0);
  });
});

function firstDay(findings: readonly Finding[], date: string): number {
  const days = findings.flatMap(({ outcome, when }) => (outcome === 'failed' && when !== null ? [dayOf(when) - dayOf(date)] : []));
  return days.length === 0 ? Number.NaN : Math.min(...days);
}
