/**
 * Runs over many scenarios lay out what does not vary, write numbers in place, and leave out what cannot change an answer. None of that may show: every
 * scenario is what check and the rules say of its documents.
 */
import {
  check,
  dayOf,
  libraryOf,
  missingRock,
  OUTCOMES,
  peakAmmonia,
  rules,
  scenarioOf,
  stockOf,
  studyOf,
  type CompiledStudy,
  type Library,
} from '@commensal/core';
import type { CheckReport, Finding, Level, Situation, Study } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { libraryFor, type Scene, scenes } from '../support/arbitraries.js';
import { runs } from '../support/runs.js';

const LEVELS: readonly Level[] = ['note', 'warning', 'error'];
const SORTS = ['growth', 'shape', 'lengths'] as const;
const SCENARIOS = 12;

function compiled(study: Omit<Study, '$schema'>, library: Library): CompiledStudy {
  const made = studyOf({ $schema: 'https://commensal.example/schema/1.0/study.schema.json', ...study }, library, rules);
  expect(made.problems).toEqual([]);
  return made.study as CompiledStudy;
}

/** Outputs and documents of each scenario. */
function scenariosIn(
  study: CompiledStudy,
  library: Library,
  many: number,
  visit: (told: (column: string) => number, stock: ReturnType<typeof stockOf>['stock']) => void,
) {
  const values = new Float64Array(study.variables.length);
  const outputs = new Float64Array(study.evaluator.columns.length);
  const told = (column: string): number => {
    const at = study.evaluator.columns.findIndex(({ name }) => name === column);
    expect(at, column).toBeGreaterThanOrEqual(0);
    return outputs[at] as number;
  };
  for (let scenario = 0; scenario < many; scenario += 1) {
    study.draw(scenario, values);
    study.evaluator.evaluate(values, outputs, 0);
    const { situation, library: changed } = scenarioOf(study.document.situation, library, study.variables, values);
    visit(told, stockOf(situation, changed).stock);
  }
}

type Checked = Pick<CheckReport, 'findings' | 'summary'>;

/** What a rule comes to by what check found; with ids, by findings that name them all. */
function expectedOf({ findings, summary }: Checked, rule: string, ids: readonly string[] = []): readonly [outcome: number, level: number] {
  const counts = summary.rules[rule];
  const worst = (['untested', 'failed', 'cantTell', 'passed', 'inapplicable'] as const).find((outcome) => (counts?.[outcome] ?? 0) > 0);
  const named = findings.filter((finding) => finding.rule === rule && namesAll(finding, ids));
  const about = (['failed', 'cantTell'] as const).find((outcome) => named.some((finding) => finding.outcome === outcome));
  if (about !== undefined) {
    const levels = named.filter(({ outcome }) => outcome === about).map(({ level }) => LEVELS.indexOf(level));
    return [OUTCOMES.indexOf(about), Math.max(...levels)];
  }
  const rest = worst === 'failed' || worst === 'cantTell' ? 'passed' : (worst ?? 'inapplicable');
  return [OUTCOMES.indexOf(rest), Number.NaN];
}

const namesAll = ({ subjects }: Finding, ids: readonly string[]): boolean =>
  ids.every((id) => subjects.some((subject) => subject.id === id));

/** Days to the first failure of `level` or graver that names all ids. */
function firstOf({ findings }: Checked, rule: string, date: string, from: Level, ids: readonly string[] = []): number {
  const days = findings.flatMap(({ outcome, level, when, ...finding }) =>
    finding.rule === rule &&
    outcome === 'failed' &&
    when !== null &&
    LEVELS.indexOf(level) >= LEVELS.indexOf(from) &&
    namesAll({ outcome, level, when, ...finding }, ids)
      ? [dayOf(when) - dayOf(date)]
      : [],
  );
  return days.length === 0 ? Number.NaN : Math.min(...days);
}

interface Choice {
  readonly scene: Scene;
  readonly uncertain: readonly (typeof SORTS)[number][];
  readonly seed: number;
}

const choices: fc.Arbitrary<Choice> = fc.record({
  scene: scenes({ residents: 4 }),
  uncertain: fc.oneof(fc.constant(SORTS), fc.subarray([...SORTS], { minLength: 1 })),
  seed: fc.nat(),
});

const WATER: Study['vary'] = [{ name: 'water', at: ['/situation/tank/water'], unit: 'L', over: { kind: 'uniform', low: 40, high: 900 } }];

const design: Study['design'] = { kind: 'monte-carlo', scenarios: 1000 };

const idsIn = ({ residents = [], introductions = [] }: Situation): string[] => [
  ...residents.map(({ id }) => id),
  ...introductions.flatMap(({ animals }) => animals.map(({ id, species }) => id ?? species)),
];

describe('a run over many scenarios says of each what check says of it', () => {
  it('where outcomes alone are asked for, of every rule', () => {
    const seen = new Map<string, Set<string>>();
    fc.assert(
      fc.property(choices, ({ scene, uncertain, seed }) => {
        const library = libraryFor(scene);
        const study = compiled(
          { situation: scene.situation, vary: WATER, uncertain: [...uncertain], design, seed, outputs: [{ kind: 'outcome' }] },
          library,
        );
        scenariosIn(study, library, SCENARIOS, (told, stock) => {
          const checked = check(stock, rules);
          for (const { id } of rules) {
            const column = id.replaceAll('-', '_');
            const expected = expectedOf(checked, id);
            seen.set(id, (seen.get(id) ?? new Set()).add(expected.join()));
            expect([id, told(`${column}_outcome`), told(`${column}_level`)]).toEqual([id, ...expected]);
          }
        });
      }),
      { numRuns: runs(100) },
    );
    for (const id of ['gape', 'appetite', 'rivalry', 'swimming-room', 'escape'])
      expect([id, (seen.get(id)?.size ?? 0) >= 4]).toEqual([id, true]);
  });

  it('of two animals, and of failures from a level up', () => {
    const seen = { failed: 0, doubtful: 0, days: 0, graver: 0 };
    fc.assert(
      fc.property(choices, ({ scene, uncertain, seed }) => {
        const { situation } = scene;
        const [one, other] = idsIn(situation);
        fc.pre(one !== undefined && other !== undefined && one !== other);
        const library = libraryFor(scene);
        const subjects: [string, string] = [one as string, other as string];
        const outputs: Study['outputs'] = [
          { kind: 'outcome', rule: 'gape', subjects },
          { kind: 'outcome', rule: 'rivalry', subjects },
          { kind: 'first-failure', rule: 'gape', level: 'error' },
          { kind: 'first-failure', rule: 'gape', subjects },
        ];
        const study = compiled({ situation, vary: WATER, uncertain: [...uncertain], design, seed, outputs }, library);
        const [gapeOutcome, gapeLevel, rivalryOutcome, rivalryLevel, error, first] = study.evaluator.columns.map(
          ({ name }) => name,
        ) as string[];
        scenariosIn(study, library, SCENARIOS, (told, stock) => {
          const checked = check(stock, rules);
          const expected = [
            ...expectedOf(checked, 'gape', subjects),
            ...expectedOf(checked, 'rivalry', subjects),
            firstOf(checked, 'gape', situation.date, 'error'),
            firstOf(checked, 'gape', situation.date, 'note', subjects),
          ];
          if (expected[0] === OUTCOMES.indexOf('failed')) seen.failed += 1;
          if (expected[0] === OUTCOMES.indexOf('cantTell')) seen.doubtful += 1;
          if (!Number.isNaN(expected[5])) seen.days += 1;
          if (!Number.isNaN(expected[4])) seen.graver += 1;
          expect([gapeOutcome, gapeLevel, rivalryOutcome, rivalryLevel, error, first].map((name) => told(name as string))).toEqual(
            expected,
          );
        });
      }),
      { numRuns: runs(100) },
    );
    for (const [what, times] of Object.entries(seen)) expect([what, times > 0]).toEqual([what, true]);
  });

  it('litres of rock and milligrams of ammonia, to the last digit', () => {
    const seen = { rock: 0, ammonia: 0 };
    fc.assert(
      fc.property(choices, ({ scene, uncertain, seed }) => {
        const library = libraryFor(scene);
        const outputs: Study['outputs'] = [{ kind: 'missing-rock' }, { kind: 'peak-ammonia' }];
        const study = compiled({ situation: scene.situation, vary: WATER, uncertain: [...uncertain], design, seed, outputs }, library);
        scenariosIn(study, library, 5, (told, stock) => {
          const [rock, ammonia] = [missingRock(stock) ?? Number.NaN, peakAmmonia(stock) ?? Number.NaN];
          if (rock > 0) seen.rock += 1;
          if (ammonia > 0) seen.ammonia += 1;
          expect([told('missing_rock'), told('peak_ammonia')]).toEqual([rock, ammonia]);
        });
      }),
      { numRuns: runs(40) },
    );
    expect(seen.rock).toBeGreaterThan(0);
    expect(seen.ammonia).toBeGreaterThan(0);
  });
});

/** A situation of the sample, with every sort of place that a value can go to. */
const SITUATION: Situation = {
  $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
  date: '2027-03-01',
  tank: {
    water: { value: 400, unit: 'L' },
    length: { value: 150, unit: 'cm' },
    width: { value: 60, unit: 'cm' },
    rock: { mass: { value: 45, unit: 'kg' }, porosity: { value: 0.5, unit: '1' } },
    cycledOn: '2026-09-01',
    feedingsPerDay: 2,
    kept: [],
  },
  keeper: { careTier: 2 },
  residents: [
    { id: 'lion', species: 'pterois-volitans', length: { value: 6, unit: 'cm', lengthType: 'SL' } },
    { id: 'royal', species: 'gramma-loreto', length: { value: 6, unit: 'cm' } },
  ],
  introductions: [
    { date: '2027-04-01', animals: [{ id: 'pip', species: 'amphiprion-ocellaris', length: { value: 4, unit: 'cm' }, count: 2 }] },
  ],
  settings: { thresholds: { gape: { longestShare: 0.7 } } },
};

const uniform = (low: number, high: number): NonNullable<Study['vary']>[number]['over'] => ({ kind: 'uniform', low, high });

const PLACES: Study['vary'] = [
  { name: 'along', at: ['/situation/tank/length'], unit: '[in_i]', over: uniform(10, 250) },
  { name: 'rock', at: ['/situation/tank/rock/mass'], unit: '[lb_av]', over: uniform(10, 150) },
  { name: 'lion_sl', at: ['/situation/residents/0/length'], unit: 'cm', over: uniform(6, 25) },
  { name: 'tail', at: ['/species/pterois-volitans/size/totalPerStandard'], unit: '1', over: uniform(1, 2.5) },
  { name: 'adult', at: ['/species/gramma-loreto/size/captiveAdult'], unit: 'cm', over: uniform(5, 60) },
  { name: 'entry', at: ['/situation/introductions/0/date'], unit: 'd', over: uniform(0, 90) },
  { name: 'share', at: ['/situation/settings/thresholds/gape/longestShare'], over: uniform(0.2, 1) },
  { name: 'count', at: ['/situation/introductions/0/animals/0/count'], over: { kind: 'list', values: [1, 2, 3] } },
  {
    name: 'which',
    at: ['/situation/introductions/0/animals/0/species'],
    over: { kind: 'words', words: ['amphiprion-ocellaris', 'chromis-viridis'] },
  },
];

const OUTPUTS: Study['outputs'] = [
  { kind: 'outcome' },
  ...rules.filter(({ id }) => id !== 'nitrogen').map(({ id }) => ({ kind: 'first-failure' as const, rule: id })),
  { kind: 'missing-rock' },
  { kind: 'outcome', rule: 'swimming-room', subjects: ['royal'] },
  { kind: 'first-failure', rule: 'gape', subjects: ['lion', 'royal'] },
];

describe('every sort of place', () => {
  const sample = libraryOf(records, standIns);

  it.each([['all together', PLACES] as const, ...PLACES.map((variable) => [variable.name, [variable]] as const)])('%s', (_, vary) => {
    const study = compiled({ situation: SITUATION, vary: [...vary], design, seed: 4, outputs: OUTPUTS }, sample);
    const answers = new Set<string>();
    scenariosIn(study, sample, 40, (told, stock) => {
      const checked = check(stock, rules);
      const expected = [
        ...expectedOf(checked, 'swimming-room', ['royal']),
        firstOf(checked, 'gape', SITUATION.date, 'note', ['lion', 'royal']),
        ...rules.flatMap(({ id }) => [
          ...expectedOf(checked, id),
          ...(id === 'nitrogen' ? [] : [firstOf(checked, id, SITUATION.date, 'note')]),
        ]),
      ];
      const found = [
        told('swimming_room_royal_outcome'),
        told('swimming_room_royal_level'),
        told('gape_lion_royal_first'),
        ...rules.flatMap(({ id }) => {
          const column = id.replaceAll('-', '_');
          return [told(`${column}_outcome`), told(`${column}_level`), ...(id === 'nitrogen' ? [] : [told(`${column}_first`)])];
        }),
      ];
      answers.add([...found, told('missing_rock')].join());
      expect(found).toEqual(expected);
      expect(told('missing_rock')).toBe(missingRock(stock));
    });
    // A variable that changes nothing would test nothing.
    expect(answers.size).toBeGreaterThan(1);
  });

  it('is the same in any order of the scenarios', () => {
    const forward = compiled({ situation: SITUATION, vary: PLACES, uncertain: [...SORTS], design, seed: 4, outputs: OUTPUTS }, sample);
    const backward = compiled({ situation: SITUATION, vary: PLACES, uncertain: [...SORTS], design, seed: 4, outputs: OUTPUTS }, sample);
    const rowOf = (study: CompiledStudy, scenario: number): number[] => {
      const values = new Float64Array(study.variables.length);
      const outputs = new Float64Array(study.evaluator.columns.length);
      study.draw(scenario, values);
      study.evaluator.evaluate(values, outputs, 0);
      return [...outputs];
    };
    const numbers = Array.from({ length: 60 }, (_, scenario) => scenario);
    const one = numbers.map((scenario) => rowOf(forward, scenario));
    const other = [...numbers].reverse().map((scenario) => rowOf(backward, scenario));
    expect([...other].reverse()).toEqual(one);
  });

  it('a length that cannot be leaves the scenario out', () => {
    const normal = { kind: 'normal' as const, mean: 3, standardDeviation: 3 };
    const vary: Study['vary'] = [{ name: 'pip_cm', at: ['/situation/introductions/0/animals/0/length'], unit: 'cm', over: normal }];
    const study = compiled({ situation: SITUATION, vary, design, seed: 4, outputs: [{ kind: 'outcome', rule: 'gape' }] }, sample);
    const values = new Float64Array(1);
    const outputs = new Float64Array(study.evaluator.columns.length);
    const seen = new Set<number>();
    for (let scenario = 0; scenario < 50; scenario += 1) {
      study.draw(scenario, values);
      study.evaluator.evaluate(values, outputs, 0);
      const [valid, outcome] = outputs as unknown as [number, number];
      seen.add(valid);
      expect(valid).toBe((values[0] as number) > 0 ? 1 : 0);
      expect(Number.isNaN(outcome)).toBe(valid === 0);
    }
    expect(seen).toEqual(new Set([0, 1]));
  });
});
