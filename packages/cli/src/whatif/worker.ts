import { parentPort, workerData } from 'node:worker_threads';
import { type Library, rules, studyOf } from '@commensal/core';
import type { Study } from '@commensal/schema';
import { type Cut, scenariosOfBlock } from './blocks.js';
import { blockMaker } from './block-of.js';
import { partName, writeWhole } from './folder.js';
import { encoded, type RowFormat } from './formats.js';
import { type Given, withGiven } from './given.js';

/** What is to be made of a study, by whomever. */
export interface Job extends Cut {
  readonly library: Library;
  readonly given: Given | undefined;
  readonly folder: string;
  readonly format: RowFormat;
}

/** What a worker is handed. */
export interface Task extends Job {
  readonly study: Study;
  /** Blocks to make. */
  readonly blocks: readonly number[];
  /** How many of them have been claimed, and whether to stop. */
  readonly shared: Int32Array;
}

/** What a worker tells. */
export type Report =
  | { readonly kind: 'done'; readonly block: number; readonly scenarios: number }
  | { readonly kind: 'broken'; readonly message: string };

const CLAIMED = 0;
export const STOP = 1;

/** Makes blocks until there are none left: each worker takes the next that nobody has. */
export function work(task: Task, tell: (report: Report) => void): void {
  const { folder, format, blocks, shared } = task;
  const { study, problems } = studyOf(task.study, task.library, rules);
  if (study === undefined)
    throw new Error(`The study has problems that were not there before: ${problems.map(({ found }) => found).join('; ')}`);
  const isStopped = (): boolean => Atomics.load(shared, STOP) === 1;
  const make = blockMaker(withGiven(study, task.given), Math.min(task.blockScenarios, task.scenarios), isStopped);
  for (;;) {
    const block = blocks[Atomics.add(shared, CLAIMED, 1)];
    if (block === undefined || isStopped()) return;
    const { from, until } = scenariosOfBlock(block, task);
    const rows = make(from, until);
    if (rows === undefined) return;
    writeWhole(folder, partName(block, format), encoded(format, study.columns, rows));
    tell({ kind: 'done', block, scenarios: until - from });
  }
}

/** A worker thread of its own. */
export function runWorker(): void {
  const port = parentPort;
  if (port === null) throw new Error('runWorker: expected a worker thread');
  try {
    work(workerData as Task, (report) => port.postMessage(report satisfies Report));
  } catch (error) {
    port.postMessage({ kind: 'broken', message: error instanceof Error ? error.message : String(error) } satisfies Report);
  }
}
