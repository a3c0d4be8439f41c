import { availableParallelism } from 'node:os';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { CompiledStudy } from '@commensal/core';
import { Broken, EXIT } from '../failure.js';
import { scenariosOfBlock, type Shard } from './blocks.js';
import { blocksIn, removeLeftovers } from './folder.js';
import { count, duration, whole } from './told.js';
import { type Job, type Report, STOP, type Task } from './worker.js';

/** A run of one shard into a folder. */
export interface Run extends Job {
  readonly study: CompiledStudy;
  readonly shard: Shard;
  readonly workers: number;
  /** The file that a worker is started from. */
  readonly entry: string;
}

export const workersWanted = (asked: number | undefined): number => asked ?? availableParallelism();

/** Milliseconds between two lines of progress: on a terminal, and where they are kept in a file. */
const PROGRESS_MS = 500;
const PROGRESS_KEPT_MS = 15_000;

/** Makes the parts that are not there yet, after telling what is to run if there are some. Returns the exit code. */
export async function runParts(run: Run, tellBefore: () => void): Promise<number> {
  const { library, given, folder, format, scenarios, blockScenarios, shard } = run;
  removeLeftovers(folder);
  const there = blocksIn(folder, format);
  const blocks: number[] = [];
  for (let block = shard.from; block < shard.until; block += 1) if (!there.has(block)) blocks.push(block);
  const wanted = blocks.reduce((sum, block) => {
    const { from, until } = scenariosOfBlock(block, run);
    return sum + until - from;
  }, 0);
  const kept = shard.until - shard.from - blocks.length;
  const left = blocks.length === 0 ? '; none is left to make' : '';
  if (kept > 0) process.stderr.write(`${count(kept, 'part')} made before ${kept === 1 ? 'is' : 'are'} kept${left}.\n`);
  if (blocks.length === 0) return EXIT.done;
  tellBefore();
  const shared = new Int32Array(new SharedArrayBuffer(8));
  const task: Task = { study: run.study.document, library, given, folder, format, scenarios, blockScenarios, blocks, shared };
  const began = performance.now();
  let done = 0;
  let lastTold = began;
  const every = process.stderr.isTTY ? PROGRESS_MS : PROGRESS_KEPT_MS;
  const tell = (): void => {
    const now = performance.now();
    if (now - lastTold < every) return;
    lastTold = now;
    const rate = done / ((now - began) / 1000);
    const line = `${whole(done)} of ${whole(wanted)} scenarios, ${whole(rate)} a second${rate > 0 ? `, ${duration((wanted - done) / rate)} left` : ''}`;
    process.stderr.write(process.stderr.isTTY ? `\r\u001B[2K${line}` : `${line}\n`);
  };
  const take = (report: Report): void => {
    if (report.kind === 'broken') throw new Broken(report.message);
    done += report.scenarios;
    tell();
  };
  const wasInterrupted = await untilInterrupted(shared, (interrupted) =>
    Promise.all(Array.from({ length: Math.min(run.workers, blocks.length) }, () => oneWorker(run.entry, task, take, interrupted))),
  );
  if (process.stderr.isTTY) process.stderr.write('\r\u001B[2K');
  if (wasInterrupted) {
    process.stderr.write(`Interrupted. What is finished stays in "${folder}"; the same command with --resume goes on from there.\n`);
    return EXIT.interrupted;
  }
  const seconds = (performance.now() - began) / 1000;
  process.stderr.write(
    `${whole(wanted)} scenarios in ${duration(seconds)}, ${whole(wanted / seconds)} a second; parts are in "${path.normalize(folder)}".\n`,
  );
  return EXIT.done;
}

/** Runs something that Ctrl-C and a polite end of the process stop between scenarios; returns whether one did. */
async function untilInterrupted(shared: Int32Array, run: (interrupted: () => boolean) => Promise<unknown>): Promise<boolean> {
  let isInterrupted = false;
  const stop = (): void => {
    isInterrupted = true;
    Atomics.store(shared, STOP, 1);
  };
  const before = process.listeners('SIGINT');
  process.removeAllListeners('SIGINT');
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  try {
    await run(() => isInterrupted);
  } finally {
    process.removeListener('SIGINT', stop);
    process.removeListener('SIGTERM', stop);
    for (const listener of before) process.on('SIGINT', listener as () => void);
  }
  return isInterrupted;
}

function oneWorker(entry: string, task: Task, take: (report: Report) => void, isInterrupted: () => boolean): Promise<void> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(entry, { workerData: task });
    const fail = (error: unknown): void => {
      // The others end at the scenario they are at.
      Atomics.store(task.shared, STOP, 1);
      reject(error);
    };
    worker.on('message', (report: Report) => {
      try {
        take(report);
      } catch (error) {
        fail(error);
      }
    });
    worker.on('error', fail);
    worker.on('exit', (code) => (code === 0 || isInterrupted() ? resolve() : fail(new Broken(`A worker ended with code ${code}.`))));
  });
}
