import type { Problem, Spread, Study, StudyVariable } from '@commensal/schema';
import { rules as allRules } from '../../rules/index.js';
import type { AnyRule } from '../../rules/rule.js';
import type { Library } from '../../stock/library.js';
import { growthRateWith } from '../distribution/growth-pair.js';
import { normalQuantile } from '../distribution/normal-quantile.js';
import { spreadQuantile, valuesOf } from '../distribution/spread-quantile.js';
import { evaluatorOf, type Evaluator } from '../scenario/evaluator.js';
import type { Column } from './column.js';
import { type Layout, layoutOf, MOST_SOBOL_POINTS, mostAxes } from './layout.js';
import { type UncertainFigure, uncertainFigures } from './uncertain.js';
import type { Variable } from './variable.js';

/** Most scenarios of a study. */
export const MOST_SCENARIOS = 1e12;

/** A study made ready to run. */
export interface CompiledStudy {
  readonly document: Study;
  readonly variables: readonly Variable[];
  /** `scenario`, `replicate` where there are several, the variables, the outputs. */
  readonly columns: readonly Column[];
  /** Scenarios of all replicates; 0 where a table gives them. */
  readonly scenarios: number;
  readonly replicates: number;
  /** Values of the variables of a scenario. */
  readonly draw: (scenario: number, into: Float64Array) => void;
  readonly evaluator: Evaluator;
}

/** How many values stand for a distribution in a grid that does not say. */
const GRID_STEPS = 5;

/**
 * Makes a valid study ready: what varies, what comes out, and how many scenarios there are. Problems are those that no schema can say: places that
 * records do not have, animals and rules that are not there, more axes than a design takes. With problems nothing can be run.
 */
export function studyOf(
  document: Study,
  library: Library,
  rules: readonly AnyRule[] = allRules,
): { readonly study: CompiledStudy | undefined; readonly problems: readonly Problem[] } {
  const told = document.vary ?? [];
  const figures = figuresOf(document, library);
  const variables = [...told.map(variableTold), ...figures.map(variableOfFigure)];
  const steps = document.design.kind === 'grid' ? (document.design.steps ?? GRID_STEPS) : 1;
  const axes = [
    ...told.map(({ name, over }) => ({ name, values: valuesOf(over)?.length ?? steps })),
    ...figures.map(({ name }) => ({ name, values: steps })),
  ];
  const replicates = document.replicates ?? 1;
  const evaluator = evaluatorOf(document.situation, library, rules, variables, document.outputs);
  const problems = [...designProblems(document, axes.length), ...nameProblems(told, figures, evaluator.columns), ...evaluator.problems];
  if (problems.length > 0) return { study: undefined, problems };
  const layout = layoutOf(document.design, axes, document.seed);
  const scenarios = layout.points * replicates;
  const tooMany = scenarios > MOST_SCENARIOS ? [manyScenarios(scenarios)] : [];
  if (tooMany.length > 0) return { study: undefined, problems: tooMany };
  return {
    problems,
    study: {
      document,
      variables,
      columns: [
        ...scenarioColumns(replicates),
        ...variables.map((variable, at) => columnOf(variable, told[at], figures)),
        ...evaluator.columns,
      ],
      scenarios,
      replicates,
      draw: drawing(layout, document.design.kind === 'grid', told, figures),
      evaluator,
    },
  };
}

function figuresOf({ situation, vary = [], uncertain = [] }: Study, library: Library): UncertainFigure[] {
  const words = vary.flatMap(({ over }) => (over.kind === 'words' ? over.words : []));
  const taken = new Set(vary.flatMap(({ at }) => at));
  return uncertainFigures(situation, library, uncertain, words, taken);
}

const variableTold = ({ name, at, unit, over }: StudyVariable): Variable => ({
  name,
  at,
  unit,
  words: over.kind === 'words' ? over.words : undefined,
  whole: undefined,
  isWhole: valuesOf(over)?.every(Number.isInteger) === true,
  isPositive: isPositive(over),
});

const variableOfFigure = ({ name, at, unit, whole }: UncertainFigure): Variable => ({
  name,
  at: [at],
  unit,
  words: undefined,
  whole,
  isWhole: false,
  isPositive: true,
});

function isPositive(over: Spread): boolean {
  switch (over.kind) {
    case 'normal':
      return false;
    case 'uniform':
    case 'triangular':
      return over.low > 0;
    case 'empirical':
      return over.values.every((value) => value > 0);
    default:
      return valuesOf(over)?.every((value) => value > 0) ?? true;
  }
}

/** A grid has every value once. */
function unweighted(over: Spread): Spread {
  if (over.kind !== 'list' && over.kind !== 'words') return over;
  const { weights: _, ...rest } = over;
  return rest;
}

function drawing(
  layout: Layout,
  isGrid: boolean,
  told: readonly StudyVariable[],
  figures: readonly UncertainFigure[],
): CompiledStudy['draw'] {
  const quantiles = [
    ...told.map(({ over }) => spreadQuantile(isGrid ? unweighted(over) : over)),
    ...figures.map(({ band }) => spreadQuantile({ kind: 'log-normal', low: band.low, high: band.high })),
  ];
  const pairs = figures.flatMap(({ jointlyWith, band }, at) => {
    if (jointlyWith === undefined) return [];
    const lengthAt = told.length + figures.findIndex(({ name }) => name === jointlyWith.name);
    // A length that does not vary, or that the study sets itself, leaves the rate on its own.
    return lengthAt < told.length ? [] : [{ rateAt: told.length + at, lengthAt, rate: growthRateWith(jointlyWith.band, band) }];
  });
  const isPaired = new Set(pairs.map(({ rateAt }) => rateAt));
  const alone = quantiles.map((quantile, at) => (isPaired.has(at) ? undefined : quantile));
  const probabilities = new Float64Array(quantiles.length);
  return (scenario, into) => {
    const replicate = Math.floor(scenario / layout.points);
    layout.at(scenario - replicate * layout.points, replicate, probabilities);
    for (const { rateAt, lengthAt, rate } of pairs) {
      into[rateAt] = rate(normalQuantile(probabilities[lengthAt] as number), normalQuantile(probabilities[rateAt] as number));
    }
    for (let at = 0; at < alone.length; at += 1) {
      const quantile = alone[at];
      if (quantile !== undefined) into[at] = quantile(probabilities[at] as number);
    }
  };
}

const scenarioColumns = (replicates: number): Column[] => [
  { name: 'scenario', kind: 'integer', of: 'scenario', description: 'Number of the scenario, from 0.' },
  ...(replicates === 1
    ? []
    : [
        {
          name: 'replicate',
          kind: 'integer' as const,
          of: 'scenario' as const,
          description: 'Run of the design that it belongs to, from 0.',
        },
      ]),
];

function columnOf(
  { name, at, unit, words, isWhole }: Variable,
  told: StudyVariable | undefined,
  figures: readonly UncertainFigure[],
): Column {
  const description =
    told?.description ?? figures.find((figure) => figure.name === name)?.description ?? `What stands at ${at.join(', ')}.`;
  if (words !== undefined) return { name, kind: 'code', codes: words, of: 'variable', description };
  const column = { name, of: 'variable' as const, description };
  if (unit === 'd') return { ...column, kind: 'day', unit };
  return { ...column, kind: isWhole ? 'integer' : 'number', unit: unit ?? '1' };
}

function designProblems({ design }: Study, axes: number): Problem[] {
  const most = mostAxes(design.kind);
  if (axes > most) {
    return [
      {
        code: 'too-many-variables',
        pointer: '/design/kind',
        found: `${axes} variables vary under a design of kind "${design.kind}"`,
        allowed: `it takes ${most} at most`,
        fix: 'Let fewer vary, or choose latin-hypercube or monte-carlo.',
      },
    ];
  }
  if (design.kind !== 'sobol' || design.scenarios <= MOST_SOBOL_POINTS) return [];
  return [
    {
      code: 'too-large',
      pointer: '/design/scenarios',
      found: `a sobol design has ${design.scenarios} scenarios`,
      allowed: `it takes ${MOST_SOBOL_POINTS} at most`,
      fix: 'Use replicates, or choose monte-carlo.',
    },
  ];
}

/** Names are columns: one that a figure has already cannot be used again. */
/** Each column has a name of its own: those that a study chooses, and those that follow from ids. */
function nameProblems(told: readonly StudyVariable[], figures: readonly UncertainFigure[], outputs: readonly Column[]): Problem[] {
  const names = new Map<string, string>([
    ['scenario', 'the number of the scenario'],
    ['replicate', 'the number of the run'],
  ]);
  for (const { name, description } of [...figures, ...outputs]) names.set(name, description);
  const chosen = told.flatMap(({ name }, index) => {
    const other = names.get(name);
    if (other === undefined) return [];
    return [
      {
        code: 'duplicate-id',
        pointer: `/vary/${index}/name`,
        found: `"${name}" is the column of something else as well: ${other}`,
        allowed: 'each column needs a name of its own',
        fix: 'Choose another name.',
      },
    ];
  });
  const followed = figures.flatMap(({ name, at }, index) => {
    const first = figures.findIndex((figure) => figure.name === name);
    if (first === index) return [];
    return [
      {
        code: 'duplicate-id',
        pointer: '/uncertain',
        found: `"${name}" would be the column of ${figures[first]?.at} and of ${at}`,
        allowed: 'ids that differ in letters or digits, not in other signs alone',
        fix: 'Give one of the two another id.',
      },
    ];
  });
  return [...chosen, ...followed];
}

const manyScenarios = (scenarios: number): Problem => ({
  code: 'too-large',
  pointer: '/design',
  found: `the design has ${scenarios} scenarios`,
  allowed: `a study takes ${MOST_SCENARIOS} at most`,
  fix: 'Take fewer values, steps or replicates.',
});
