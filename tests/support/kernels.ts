/** Studies whose scenarios are gone through by kernels, each of which is held against what check finds in the documents of the scenario. */
import { check, type Library, OUTCOMES, optionsOf, recordOf, rules, scenarioOf, stockOf, studyOf } from '@commensal/core';
import type { Level, Situation, Study, StudyVariable } from '@commensal/schema';
import { records as sample } from '@commensal/species-sample';
import fc from 'fast-check';
import { expect } from 'vitest';
import { columnsOf } from '../../packages/core/src/whatif/columns/columns.js';
import { type Kernel, LEFT, rankOfVerdict } from '../../packages/core/src/whatif/columns/kernel.js';
import { kernelsOn } from '../../packages/core/src/whatif/columns/kernels.js';
import { copyOf } from '../../packages/core/src/whatif/scenario/slots.js';
import { stockIn, writingInto } from '../../packages/core/src/whatif/scenario/writing.js';
import { dayAfter, libraryFor, type Scene, START, scenes } from './arbitraries.js';

const LEVELS: readonly Level[] = ['note', 'warning', 'error'];

/** What scenarios came to. */
export interface Seen {
  /** How often a kernel gave each rank. */
  readonly ranks: Map<number, number>;
  /** How often one left it to the rule, and how often there was none. */
  left: number;
  without: number;
}

export const nothingSeen = (): Seen => ({ ranks: new Map(), left: 0, without: 0 });
export const servedIn = ({ ranks }: Seen): number => [...ranks.values()].reduce((sum, many) => sum + many, 0);

export interface Varying {
  readonly scene: Scene;
  /** Of each figure that could vary, whether it does. */
  readonly picks: readonly boolean[];
  readonly uncertain: readonly ('growth' | 'shape' | 'lengths')[];
  readonly thresholds: NonNullable<Situation['settings']>['thresholds'];
  readonly seed: number;
}

/** Tanks of real species as they are kept: half there, half to come a month apart or several at once; some lengths rough, some not told. */
const sampleTanks: fc.Arbitrary<Scene> = fc
  .tuple(
    fc.constantFrom(undefined, 8, 20, 45),
    fc.constantFrom(undefined, { holes: 1, caves: 0 }, { holes: 3, branches: 1 }),
    fc.constantFrom(undefined, undefined, dayAfter(31), dayAfter(5)),
    fc.array(
      fc.record({
        species: fc.constantFrom(...sample.map(({ id }) => id)),
        cm: fc.integer({ min: 15, max: 250 }),
        how: fc.constantFrom('exact', 'exact', 'rough', 'untold'),
        count: fc.constantFrom(1, 1, 1, 3),
        month: fc.integer({ min: 1, max: 4 }),
        measured: fc.constantFrom(undefined, undefined, -40, 60),
        sex: fc.constantFrom(undefined, 'male', 'female'),
      }),
      { minLength: 3, maxLength: 12 },
    ),
  )
  .map(([rockKg, shelters, relaid, lines]) => {
    const lineOf = ({ species, cm, how, count, sex }: (typeof lines)[number], index: number) => ({
      id: `a${index}`,
      species,
      count,
      ...(sex === undefined || count > 1 ? {} : { sex }),
      ...(how === 'untold'
        ? {}
        : { length: how === 'exact' ? { value: cm / 10, unit: 'cm' } : { low: cm / 12, high: cm / 9, unit: 'cm' } }),
    });
    const months = [...new Set(lines.filter((_, index) => index % 2 === 1).map(({ month }) => month))].sort();
    const situation = {
      $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
      date: START,
      tank: {
        water: { value: 400, unit: 'L' },
        ...(rockKg === undefined ? {} : { rock: { mass: { value: rockKg, unit: 'kg' } } }),
        ...(shelters === undefined ? {} : { shelters }),
        kept: [],
      },
      ...(relaid === undefined ? {} : { rockRelaidOn: [relaid] }),
      residents: lines.flatMap((line, index) => {
        if (index % 2 === 1) return [];
        return [{ ...lineOf(line, index), ...(line.measured === undefined ? {} : { measuredOn: dayAfter(line.measured) }) }];
      }),
      introductions: months.map((month) => ({
        date: dayAfter(31 * month),
        animals: lines.flatMap((line, index) => (index % 2 === 1 && line.month === month ? [lineOf(line, index)] : [])),
      })),
      settings: { horizonDays: 1826 },
    };
    return { situation: situation as unknown as Situation, invented: [], withStandIns: true };
  });

/** Of any rule the scenes, and thresholds of this one. */
export const varyings = (thresholds: fc.Arbitrary<Varying['thresholds']>): fc.Arbitrary<Varying> =>
  fc.record({
    scene: fc.oneof(sampleTanks, scenes({ residents: 4, batches: 3 })),
    picks: fc.oneof(fc.constant([]), fc.array(fc.boolean(), { minLength: 80, maxLength: 80 })),
    uncertain: fc.oneof(
      fc.constant(['growth', 'shape', 'lengths'] as const),
      fc.subarray(['growth' as const, 'shape' as const, 'lengths' as const]),
    ),
    thresholds,
    seed: fc.nat(),
  });

interface Member {
  readonly length?: { readonly value?: number; readonly low?: number };
  readonly species: string;
}

/** Lengths of all animals, and figures of their records that are told or that stand-ins would give. */
function variablesOf(situation: Situation, library: Library): StudyVariable[] {
  const members: [string, Member][] = [
    ...(situation.residents ?? []).map((one, at): [string, Member] => [`/situation/residents/${at}`, one]),
    ...(situation.introductions ?? []).flatMap(({ animals }, batch) =>
      animals.map((one, at): [string, Member] => [`/situation/introductions/${batch}/animals/${at}`, one]),
    ),
  ];
  const lengths = members.flatMap(([place, { length }], at): StudyVariable[] => {
    const cm = length?.value ?? length?.low;
    if (cm === undefined) return [];
    return [{ name: `length_${at}`, at: [`${place}/length`], unit: 'cm', over: { kind: 'log-normal', low: cm * 0.7, high: cm * 1.5 } }];
  });
  const ids = [...new Set(members.map(([, { species }]) => species))].filter((id) => library.records.has(id));
  const figures = ids.flatMap((id, at): StudyVariable[] => {
    const record = recordOf(library, id);
    const figure = (name: string, field: string, unit: string, low: number, high: number): StudyVariable => ({
      name: `${name}_${at}`,
      at: [`/species/${id}/${field}`],
      unit,
      over: { kind: 'uniform', low, high },
    });
    return [
      figure('asymptote', 'growth/asymptoticLength', 'cm', 5, 35),
      figure('rate', 'growth/rate', '/a', 0.05, 3),
      figure('standard', 'size/totalPerStandard', '1', 1.05, 1.4),
      figure('adult', 'size/captiveAdult', 'cm', 4, 30),
      figure('depth', 'shape/bodyDepth', '1', 0.05, 0.5),
      ...(record?.conduct?.rockClaim === undefined ? [] : [figure('claim', 'conduct/rockClaim', 'L', 0.5, 30)]),
      ...(at > 0 || record?.feeding?.dailyFeed === undefined ? [] : [figure('feed', 'feeding/dailyFeed', '1', 0.01, 0.08)]),
      ...(record?.conduct?.harms?.[0]?.upToShare === undefined
        ? []
        : [
            {
              name: `share_${at}`,
              at: [`/species/${id}/conduct/harms/0/upToShare`] as [string],
              over: { kind: 'list' as const, values: [1, 2] as [number, ...number[]] },
            },
          ]),
    ];
  });
  const mass = situation.tank.rock?.mass;
  const rock: StudyVariable[] =
    mass === undefined
      ? []
      : [{ name: 'rock', at: ['/situation/tank/rock/mass'], unit: 'kg', over: { kind: 'uniform', low: 3, high: 60 } }];
  return [...rock, ...lengths, ...figures];
}

/** Holds scenarios of a study, and the kernel on their columns, against what check finds. Words and counts stay as they are in the first. */
export function compareWithCheck(id: string, varying: Varying, scenarios: number, seen: Seen): void {
  const { scene, picks, uncertain, thresholds, seed } = varying;
  const library = libraryFor(scene);
  const situation: Situation = {
    ...scene.situation,
    settings: { ...scene.situation.settings, ...(thresholds === undefined ? {} : { thresholds }) },
  };
  const document: Study = {
    $schema: 'https://commensal.example/schema/1.0/study.schema.json',
    situation,
    vary: variablesOf(situation, library).filter((_, at) => picks[at] === true),
    uncertain: [...uncertain],
    design: { kind: 'monte-carlo', scenarios },
    seed,
    outputs: [{ kind: 'outcome', rule: id }],
  };
  const { study, problems } = studyOf(document, library, rules);
  expect(problems).toEqual([]);
  if (study === undefined) return;
  const rule = rules.find((one) => one.id === id) as (typeof rules)[number];
  const { variables, evaluator } = study;
  const fixed = variables.map(({ words, isWhole, unit }) => words !== undefined || (isWhole && (unit === undefined || unit === 'd')));
  const first = new Float64Array(variables.length);
  study.draw(0, first);
  const documents = { situation, library, variables };
  const stock = copyOf(stockIn(documents, first));
  const writing = writingInto(stock, documents, first, fixed);
  const columns = writing === undefined ? undefined : columnsOf(stock, writing);
  const kernel: Kernel | undefined = columns === undefined ? undefined : kernelsOn(columns).kernelOf(rule, optionsOf(rule, stock));
  const values = new Float64Array(variables.length);
  const outputs = new Float64Array(evaluator.columns.length);
  const valid = evaluator.columns.length - 2;
  for (let scenario = 0; scenario < scenarios; scenario += 1) {
    study.draw(scenario, values);
    for (let at = 0; at < values.length; at += 1) if (fixed[at] === true) values[at] = first[at] as number;
    evaluator.evaluate(values, outputs, 0);
    const told = scenarioOf(situation, library, variables, values);
    const expected = worstOf(stockOf(told.situation, told.library).stock, rule);
    expect([outputs[valid], outputs[valid + 1]]).toEqual([expected.outcome, expected.level]);
    if (columns === undefined || kernel === undefined) {
      seen.without += 1;
      continue;
    }
    columns.read(values);
    const rank = kernel();
    if (rank === LEFT) seen.left += 1;
    else {
      expect(rank).toBe(expected.rank);
      seen.ranks.set(rank, (seen.ranks.get(rank) ?? 0) + 1);
    }
  }
}

function worstOf(stock: Parameters<typeof check>[0], rule: (typeof rules)[number]): { outcome: number; level: number; rank: number } {
  const { findings, summary } = check(stock, [rule]);
  const counts = summary.rules[rule.id];
  const worst = (['failed', 'cantTell', 'passed'] as const).find((outcome) => (counts?.[outcome] ?? 0) > 0) ?? 'inapplicable';
  const levels = findings.filter(({ outcome }) => outcome === worst).map(({ level }) => LEVELS.indexOf(level));
  const level = levels.length === 0 ? Number.NaN : Math.max(...levels);
  const rank = rankOfVerdict({ outcome: worst, level: LEVELS[Number.isNaN(level) ? 0 : level] as Level });
  return { outcome: OUTCOMES.indexOf(worst), level, rank };
}
