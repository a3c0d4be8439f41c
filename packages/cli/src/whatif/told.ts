import type { CompiledStudy } from '@commensal/core';
import { runnerOf } from '@commensal/core';
import type { Spread, StudyVariable } from '@commensal/schema';
import type { Shard } from './blocks.js';

/** What a run is going to be, for whoever starts it. */
export interface Told {
  readonly scenarios: number;
  readonly shard: Shard;
  readonly blockScenarios: number;
  readonly blocks: number;
  readonly workers: number;
  /** Scenarios a second on one thread, of a short trial. */
  readonly rate: number;
}

/** Scenarios that are tried to tell how long a run takes, and the time after which enough have been. */
const MOST_TRIED = 2000;
const WARM_UP_MS = 400;
const TRIAL_MS = 300;

/** Scenarios a second on this thread, from a short trial spread over the study. */
export function rateOf(study: CompiledStudy): number {
  const run = runnerOf(study);
  const row = new Float64Array(study.columns.length);
  const step = Math.max(1, Math.floor(study.scenarios / MOST_TRIED));
  const trial = (mostMs: number): number => {
    const began = performance.now();
    let tried = 0;
    for (let scenario = 0; scenario < study.scenarios && tried < MOST_TRIED; scenario += step) {
      run(scenario, row);
      tried += 1;
      if (performance.now() - began > mostMs) break;
    }
    return tried / ((performance.now() - began) / 1000);
  };
  // The first are dear: layouts are made, and nothing is compiled yet.
  trial(WARM_UP_MS);
  return trial(TRIAL_MS);
}

/** What varies, what is measured, how many scenarios, about how long. */
export function toldText(study: CompiledStudy, { scenarios, shard, blockScenarios, blocks, workers, rate }: Told): string {
  const { document, variables, columns, replicates } = study;
  const mine = Math.min(scenarios, shard.until * blockScenarios) - Math.min(scenarios, shard.from * blockScenarios);
  const told = new Map((document.vary ?? []).map((variable) => [variable.name, variable]));
  const lines = [
    ...(document.title === undefined ? [] : [document.title]),
    `${count(scenarios, 'scenario')} of design ${document.design.kind}${replicates > 1 ? `, ${replicates} runs of ${whole(scenarios / replicates)}` : ''}, seed ${document.seed}.`,
    ...(variables.length === 0
      ? ['Nothing varies.']
      : ['What varies:', ...variables.map((variable) => `  ${variable.name}: ${spreadWords(told.get(variable.name), variable)}`)]),
    `What is measured: ${columns
      .filter(({ of }) => of === 'output')
      .map(({ name }) => name)
      .join(', ')}.`,
    ...(shard.of > 1
      ? [
          `Shard ${shard.number} of ${shard.of}: ${count(mine, 'scenario')}, ${shard.until === shard.from ? `none of ${count(blocks, 'part')}` : `parts ${shard.from} to ${shard.until - 1} of ${blocks}`}.`,
        ]
      : [`${count(blocks, 'part')} of ${count(blockScenarios, 'scenario')} at most.`]),
    `About ${duration(mine / rate / workers)} with ${count(workers, 'worker')}, at ${whole(rate)} scenarios a second and worker in a short trial.`,
  ];
  return `${lines.join('\n')}\n`;
}

function spreadWords(told: StudyVariable | undefined, variable: { readonly unit: string | undefined }): string {
  const unit = variable.unit === undefined || variable.unit === '1' ? '' : ` ${variable.unit === 'd' ? 'days' : variable.unit}`;
  return told === undefined ? 'within the band of its figure' : `${overWords(told.over)}${unit}`;
}

function overWords(over: Spread): string {
  switch (over.kind) {
    case 'uniform':
      return `even from ${over.low} to ${over.high}`;
    case 'normal':
      return `normal, mean ${over.mean}, standard deviation ${over.standardDeviation}`;
    case 'log-normal':
      return `log-normal, central 80 % from ${over.low} to ${over.high}`;
    case 'triangular':
      return `triangular from ${over.low} over ${over.mode} to ${over.high}`;
    case 'empirical':
      return `as ${over.values.length} observed values`;
    case 'list':
      return listed(over.values.map(String));
    case 'words':
      return listed(over.words);
    case 'range':
      return `from ${over.from} to ${over.to} in steps of ${over.step}`;
  }
}

const listed = (values: readonly string[]): string =>
  values.length > 6 ? `one of ${values.length}: ${values.slice(0, 5).join(', ')}, ...` : values.join(', ');

export const whole = (value: number): string => Math.round(value).toLocaleString('en');
export const count = (value: number, what: string): string => `${whole(value)} ${what}${value === 1 ? '' : 's'}`;

/** A length of time as a person would say it. */
export function duration(seconds: number): string {
  if (seconds < 1) return 'a second';
  if (seconds < 100) return count(Math.round(seconds), 'second');
  if (seconds < 6000) return count(Math.round(seconds / 60), 'minute');
  if (seconds < 172_800) return count(Math.round(seconds / 3600), 'hour');
  return count(Math.round(seconds / 86_400), 'day');
}
