import type { CompiledStudy } from './study/study.js';

/**
 * What fills a row with scenario `scenario` of a study: its number, the replicate where there are several, the values of the variables, the outputs.
 * The row must be as long as the study has columns.
 */
export function runnerOf(study: CompiledStudy): (scenario: number, row: Float64Array) => void {
  const values = new Float64Array(study.variables.length);
  const first = study.replicates === 1 ? 1 : 2;
  const perRun = study.scenarios / study.replicates;
  return (scenario, row) => {
    study.draw(scenario, values);
    row[0] = scenario;
    if (first === 2) row[1] = Math.floor(scenario / perRun);
    row.set(values, first);
    study.evaluator.evaluate(values, row, first + values.length);
  };
}

/**
 * The rows of scenarios `from` to `until`, the last not among them; all when left out. The row is the same array each time: what is to be kept has to
 * be copied.
 */
export function* scenariosOf(study: CompiledStudy, from = 0, until: number = study.scenarios): Generator<Float64Array> {
  const run = runnerOf(study);
  const row = new Float64Array(study.columns.length);
  for (let scenario = from; scenario < until; scenario += 1) {
    run(scenario, row);
    yield row;
  }
}
