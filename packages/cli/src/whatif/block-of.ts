import type { CompiledStudy } from '@commensal/core';
import { runnerOf } from '@commensal/core';
import type { Block } from './formats.js';

/** Scenarios between two looks at whether to stop. */
const LOOK = 64;

/**
 * What computes the rows of scenarios `from` to `until`, into the same memory each time; undefined where it was told to stop on the way.
 */
export function blockMaker(
  study: CompiledStudy,
  capacity: number,
  isStopped: () => boolean = () => false,
): (from: number, until: number) => Block | undefined {
  const run = runnerOf(study);
  const width = study.columns.length;
  const cells = new Float64Array(width * capacity);
  const row = new Float64Array(width);
  return (from, until) => {
    for (let scenario = from; scenario < until; scenario += 1) {
      if (scenario % LOOK === 0 && isStopped()) return undefined;
      run(scenario, row);
      for (let column = 0; column < width; column += 1) cells[column * capacity + scenario - from] = row[column] as number;
    }
    return { cells, capacity, rows: until - from };
  };
}
