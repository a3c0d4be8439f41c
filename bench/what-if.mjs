/**
 * Scenarios a second of a what-if study, by what it measures: 12 animals over five years, growth, shapes, water and rock varying, values of the variables in memory
 * beforehand. Beside it the bare loop over columns of the same swallow verdicts (bare-swallow.mjs), which does nothing but them.
 */
import { gape, optionsOf, rules, stockOf, studyOf } from '@commensal/core';
import { bareVerdicts, columnsOf, scratchOf } from './bare-swallow.mjs';
import { medians, per } from './measure.mjs';
import { goalRow, heading, row } from './table.mjs';
import { library, situationOf } from './tanks.mjs';

const SCHEMA = 'https://commensal.example/schema/1.0/study.schema.json';
const FIVE_YEARS = 1826;

/** Rules that follow something day by day; all others are answered by formulas. */
const STEPPED = new Set(['nitrogen']);
const CLOSED = rules.map(({ id }) => id).filter((id) => !STEPPED.has(id));
export const outcomesOf = (ids) => ids.map((rule) => ({ kind: 'outcome', rule }));

const spread = (name, at, unit, low, high) => ({ name, at: [at], unit, over: { kind: 'uniform', low, high } });

export function studyFor(animals, seed, outputs, more = {}) {
  const situation = { ...situationOf(animals, seed), settings: { horizonDays: FIVE_YEARS }, ...more };
  const { study, problems } = studyOf(
    {
      $schema: SCHEMA,
      situation,
      vary: [spread('water', '/situation/tank/water', 'L', 200, 600), spread('rock', '/situation/tank/rock/mass', 'kg', 20, 80)],
      uncertain: ['growth', 'shape', 'lengths'],
      design: { kind: 'monte-carlo', scenarios: 1_000_000 },
      seed: 20270301,
      outputs,
    },
    library,
    rules,
  );
  if (study === undefined) throw new Error(JSON.stringify(problems));
  return study;
}

const ROWS = 1024;

/** How many scenarios of one study are run before the next study has its turn: runs go on for hours with one. */
const BLOCK = 64;

/** Runs scenarios of several studies in turns, a block of each, their values in memory. A block divides the 1,024 that are drawn. */
export function running(studies, block = BLOCK) {
  const tables = studies.map((study) => {
    const values = Array.from({ length: ROWS }, (_, scenario) => {
      const drawn = new Float64Array(study.variables.length);
      study.draw(scenario, drawn);
      return drawn;
    });
    return { evaluate: study.evaluator.evaluate, values, into: new Float64Array(study.evaluator.columns.length) };
  });
  let first = 0;
  return () => {
    for (const { evaluate, values, into } of tables) {
      for (let scenario = first; scenario < first + block; scenario += 1) evaluate(values[scenario], into, 0);
    }
    first = (first + block) % ROWS;
  };
}

const TANKS = 6;
const tanksFor = (animals, outputs) => Array.from({ length: TANKS }, (_, at) => studyFor(animals, 11 + at, outputs));

const OUTPUTS = {
  'all closed-form rules': outcomesOf(CLOSED),
  'gape, outcome alone': outcomesOf(['gape']),
  'gape, with its first day': [...outcomesOf(['gape']), { kind: 'first-failure', rule: 'gape' }],
  'rules on pairs': outcomesOf(['gape', 'appetite', 'rivalry']),
  'litres of rock that are missing': [{ kind: 'missing-rock' }],
};

/** Prints scenarios a second by output, each in turns with the bare loop: a run has one study, so that the engine compiles for nothing else. */
export function benchWhatIf(animals = 12) {
  heading(`What-if scenarios, ${animals} animals, five years, one core, values from memory`);
  const options = optionsOf(gape, stockOf(situationOf(animals, 11), library).stock);
  const tanks = Array.from({ length: TANKS }, (_, at) => {
    const { stock } = stockOf({ ...situationOf(animals, 11 + at), settings: { horizonDays: FIVE_YEARS } }, library);
    const columns = columnsOf(stock, options);
    return { columns, scratch: scratchOf(columns) };
  });
  const bare = () => {
    for (const { columns, scratch } of tanks) for (let scenario = 0; scenario < BLOCK; scenario += 1) bareVerdicts(columns, scratch);
  };
  for (const [name, outputs] of Object.entries(OUTPUTS)) {
    // Runs go on for hours: what counts is the time after the engine has compiled what is called often.
    const times = medians({ ours: running(tanksFor(animals, outputs)), bare }, { secondsOfWarmth: 3 });
    const second = (TANKS * BLOCK) / times.ours;
    const told = `${per(times.ours, TANKS * BLOCK)} each, ${(times.ours / times.bare).toFixed(2)} x the bare loop of all swallow verdicts`;
    if (name === 'all closed-form rules' && animals === 12) {
      goalRow(`${name} (${told})`, second, { atLeast: 150_000, show: (number) => number.toFixed(0) });
    } else row(name, `${second.toFixed(0)} a second (${told})`);
  }
}

/** Outputs that take thousands of times as long. */
export function benchSlowWhatIf() {
  heading('What-if scenarios that follow days or plan, 12 animals');
  const wishes = [
    'gramma-loreto',
    'pterois-volitans',
    'amphiprion-ocellaris',
    'zebrasoma-flavescens',
    'synchiropus-splendidus',
    'lysmata-amboinensis',
  ];
  const plans = studyFor(4, 11, [{ kind: 'best-set' }], { introductions: [], wishes: wishes.map((species) => ({ species })) });
  const times = medians(
    {
      nitrogen: running([studyFor(12, 11, outcomesOf(['nitrogen']))], 1),
      peak: running([studyFor(12, 11, [{ kind: 'peak-ammonia' }])], 1),
      plans: running([plans], 1),
    },
    { rounds: 5 },
  );
  row('nitrogen', `${(1 / times.nitrogen).toFixed(0)} a second`);
  row('peak of ammonia', `${(1 / times.peak).toFixed(0)} a second`);
  row('best set of six wishes', `${(1 / times.plans).toFixed(1)} a second`);
}

/** Memory that stays taken after so many scenarios: flat where nothing is kept. */
export function benchWhatIfMemory(most = 1e5) {
  heading('Memory after so many scenarios of one study');
  const study = studyFor(12, 11, OUTPUTS['gape, with its first day']);
  const values = new Float64Array(study.variables.length);
  const into = new Float64Array(study.evaluator.columns.length);
  let done = 0;
  for (let until = 1000; until <= most; until *= 10) {
    for (; done < until; done += 1) {
      study.draw(done, values);
      study.evaluator.evaluate(values, into, 0);
    }
    globalThis.gc?.();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    row(`${until.toLocaleString('en')} scenarios`, `${((heapUsed + arrayBuffers) / 1e6).toFixed(1)} MB`);
  }
}
