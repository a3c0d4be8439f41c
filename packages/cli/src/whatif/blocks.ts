/** Most scenarios of a block, and most numbers in one: about 16 MB a worker. */
const MOST_ROWS = 65_536;
const MOST_CELLS = 2_097_152;
const FEWEST_ROWS = 16;

/** Blocks that even a small study is cut into, so that several workers have something to do. */
const BLOCKS_WANTED = 64;

/**
 * Scenarios of a block: a multiple of 16, and a function of the study alone, so that the parts of a study are the same however it is run.
 *
 * @example
 * blockRows(10_000_000, 40); // 52_416
 */
export function blockRows(scenarios: number, columns: number): number {
  const bySize = Math.floor(MOST_CELLS / columns / FEWEST_ROWS) * FEWEST_ROWS;
  const byNumber = Math.ceil(scenarios / BLOCKS_WANTED / FEWEST_ROWS) * FEWEST_ROWS;
  return Math.max(FEWEST_ROWS, Math.min(MOST_ROWS, bySize, byNumber));
}

/** How the scenarios of a study are cut. */
export interface Cut {
  readonly scenarios: number;
  readonly blockScenarios: number;
}

/**
 * The scenarios of a block: the first, and the one after the last; the last block may have fewer.
 *
 * @example
 * scenariosOfBlock(2, { scenarios: 80, blockScenarios: 32 }); // { from: 64, until: 80 }
 */
export const scenariosOfBlock = (block: number, { scenarios, blockScenarios }: Cut): { readonly from: number; readonly until: number } => ({
  from: Math.min(scenarios, block * blockScenarios),
  until: Math.min(scenarios, (block + 1) * blockScenarios),
});

/** A run of blocks: the first, and the one after the last. */
export interface Shard {
  readonly number: number;
  readonly of: number;
  readonly from: number;
  readonly until: number;
}

/**
 * The blocks of shard `number` of `of`, counted from 1: runs that differ by one block at most.
 *
 * @example
 * shardOf(2, 3, 8); // { number: 2, of: 3, from: 2, until: 5 }
 */
export const shardOf = (number: number, of: number, blocks: number): Shard => ({
  number,
  of,
  from: Math.floor(((number - 1) * blocks) / of),
  until: Math.floor((number * blocks) / of),
});
