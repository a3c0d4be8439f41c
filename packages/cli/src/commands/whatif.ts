import { rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setImmediate } from 'node:timers/promises';
import type { CompiledStudy, Library } from '@commensal/core';
import type { StudyManifest } from '@commensal/schema';
import { badCall, EXIT } from '../failure.js';
import { openLibrary } from '../library.js';
import { schemaOf, versionsOf } from '../versions.js';
import { writeStandardOutput } from '../write-output.js';
import { blockRows, type Shard, shardOf } from '../whatif/blocks.js';
import { blockMaker } from '../whatif/block-of.js';
import { kubernetesJob, slurmScript } from '../whatif/cluster.js';
import { blocksIn, claimFolder, makeFolder, writeText } from '../whatif/folder.js';
import { csvHead, csvRows, ndjsonRows, ROW_FORMATS, type RowFormat } from '../whatif/formats.js';
import { either } from '../words.js';
import { type MergeOptions, runMerge, SUMMARY_FORMATS } from './whatif-merge.js';
import { type Given, readGiven, withGiven } from '../whatif/given.js';
import { readMe } from '../whatif/read-me.js';
import { runParts, workersWanted } from '../whatif/run.js';
import { canonical, libraryHash, openStudy } from '../whatif/study-file.js';
import { rateOf, toldText } from '../whatif/told.js';
import { fileHash, sha256 } from '../whatif/hash.js';

/** Options of `commensal whatif`. */
export interface WhatIfOptions {
  readonly shard?: string;
  readonly workers?: number;
  readonly out?: string;
  readonly format?: RowFormat | MergeOptions['format'];
  readonly merge?: string;
  readonly resume?: boolean;
  readonly scenarios?: string;
  readonly species?: string;
  readonly tell?: boolean;
  readonly printSlurm?: number;
  readonly printKubernetes?: number;
}

/** The same for a run, of which the format is one of rows. */
type Running = Omit<WhatIfOptions, 'format'> & { readonly format: RowFormat | undefined };

const isSummaryFormat = (format: string): format is MergeOptions['format'] => SUMMARY_FORMATS.some((one) => one === format);
const isRowFormat = (format: string): format is RowFormat => ROW_FORMATS.some((one) => one === format);

/** Options that only a run takes. */
const OF_RUNS = ['shard', 'workers', 'resume', 'scenarios', 'species', 'tell', 'printSlurm', 'printKubernetes'] as const;

const wrongFormat = (found: string, allowed: readonly string[], where: string): Error =>
  badCall('wrong-format', `--format is ${found}`, `${where} it must be ${either(allowed)}`, 'Choose one of them.');

/** `commensal whatif STUDY`: run a batch. Returns the exit code. `entry` is the file that workers are started from. */
export async function runWhatIf(file: string | undefined, options: WhatIfOptions, entry: string): Promise<number> {
  const { merge, format } = options;
  if (merge !== undefined) {
    if (file !== undefined)
      throw badCall('too-much', `--merge is given, and the study "${file}"`, 'the folder holds its study', 'Leave the study out.');
    const idle = OF_RUNS.find((name) => options[name] !== undefined);
    if (idle !== undefined) {
      const option = `--${idle.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
      throw badCall(
        'too-much',
        `--merge is given, and ${option}`,
        'beside it only --out and --format do something',
        `Leave ${option} out.`,
      );
    }
    const [usual] = SUMMARY_FORMATS;
    if (format !== undefined && !isSummaryFormat(format)) throw wrongFormat(format, SUMMARY_FORMATS, 'with --merge');
    return runMerge(merge, { format: format ?? usual, ...(options.out === undefined ? {} : { out: options.out }) });
  }
  if (file === undefined)
    throw badCall('no-study', 'no study is named', 'there must be one, or --merge with a folder', 'Name the file of a study.');
  if (format !== undefined && !isRowFormat(format)) throw wrongFormat(format, ROW_FORMATS, 'of rows');
  const library = await openLibrary(options.species);
  const study = openStudy(file, library);
  checkCall(study, options);
  const script = printedScript(file, options);
  if (script !== undefined) {
    writeStandardOutput(script);
    return EXIT.done;
  }
  if (options.scenarios === undefined) return runOn(study, undefined, library, { ...options, format }, entry);
  // The table goes through once; a file of its numbers is what any block of it is read from.
  const numbers = path.join(tmpdir(), `commensal-${process.pid}.scenarios`);
  try {
    const given = await readGiven(options.scenarios, study.variables, numbers);
    return await runOn(withGiven(study, given), given, library, { ...options, format }, entry);
  } finally {
    rmSync(numbers, { force: true });
  }
}

async function runOn(study: CompiledStudy, given: Given | undefined, library: Library, options: Running, entry: string): Promise<number> {
  const { scenarios, columns } = study;
  const blockScenarios = blockRows(scenarios, columns.length);
  const blocks = Math.ceil(scenarios / blockScenarios);
  const shard = readShard(options.shard, blocks);
  const workers = options.out === undefined ? 1 : workersWanted(options.workers);
  const tell = (): void => {
    process.stderr.write(toldText(study, { scenarios, shard, blockScenarios, blocks, workers, rate: rateOf(study) }));
  };
  if (options.tell === true || options.out === undefined) {
    tell();
    return options.tell === true ? EXIT.done : printed(study, options.format ?? 'csv', shard, blockScenarios);
  }
  const format = options.format ?? 'parquet';
  const manifest: StudyManifest = {
    $schema: schemaOf('study-manifest'),
    ...(study.document.title === undefined ? {} : { title: study.document.title }),
    study: sha256(canonical(study.document)),
    records: libraryHash(library),
    ...(options.scenarios === undefined ? {} : { given: fileHash(options.scenarios) }),
    seed: study.document.seed,
    format,
    scenarios,
    replicates: study.replicates,
    blockScenarios,
    blocks,
    columns: columns.map(({ name, kind, unit, codes, of, description }) => ({
      name,
      kind,
      ...(unit === undefined ? {} : { unit }),
      ...(codes === undefined ? {} : { codes: [...codes] as [string, ...string[]] }),
      of,
      description,
    })) as StudyManifest['columns'],
    versions: versionsOf(library),
  };
  makeFolder(options.out);
  claimFolder(options.out, manifest);
  refuseParts(options.out, format, shard, options.resume === true);
  writeText(options.out, 'study.json', `${JSON.stringify(study.document, null, 2)}\n`);
  writeText(options.out, 'README.txt', readMe(manifest));
  return runParts({ study, library, given, folder: options.out, format, scenarios, blockScenarios, shard, workers, entry }, tell);
}

/** What hands the run to a cluster, where that is asked for; undefined where it is to run here. */
function printedScript(file: string, { out, printSlurm, printKubernetes, format, species, scenarios }: WhatIfOptions): string | undefined {
  const shards = printSlurm ?? printKubernetes;
  if (shards === undefined) return undefined;
  if (out === undefined)
    throw badCall('no-folder', 'there is no --out', 'shards write into a folder that all of them see', 'Name it with --out.');
  if (file === '-') throw badCall('no-study', 'the study comes from standard input', 'shards read it from a file', 'Name the file.');
  // A pod has folders of its own; jobs of Slurm see those from here.
  const placed = (place: string | undefined): string | undefined =>
    place === undefined || printSlurm === undefined ? place : path.resolve(place);
  const word = (name: string, value: string | undefined): string[] => (value === undefined ? [] : [name, value]);
  const words = [...word('--format', format), ...word('--species', placed(species)), ...word('--scenarios', placed(scenarios))];
  const run = { study: file, folder: out, shards, words };
  return printSlurm === undefined ? kubernetesJob(run) : slurmScript(run);
}

function checkCall({ document }: CompiledStudy, { scenarios, out, format, resume, workers }: WhatIfOptions): void {
  const isGiven = document.design.kind === 'given';
  if (isGiven !== (scenarios !== undefined)) {
    throw isGiven
      ? badCall(
          'no-table',
          'the design of the study is "given", and no table gives its scenarios',
          'such a study needs --scenarios',
          'Name the table.',
        )
      : badCall(
          'two-designs',
          `--scenarios names a table, and the design of the study is "${document.design.kind}"`,
          'a table goes with the design "given"',
          'Leave one of them out.',
        );
  }
  if (out !== undefined) return;
  if (format === 'parquet')
    throw badCall(
      'no-folder',
      '--format is parquet, and there is no --out',
      'standard output takes csv or ndjson',
      'Name a folder with --out.',
    );
  if (resume === true)
    throw badCall(
      'no-folder',
      '--resume is given, and there is no --out',
      'only a run into a folder can go on',
      'Name its folder with --out.',
    );
  if (workers !== undefined)
    throw badCall(
      'no-folder',
      '--workers is given, and there is no --out',
      'only a run into a folder has workers',
      'Name a folder with --out.',
    );
}

/** Parts that are there are kept only where that was asked for. */
function refuseParts(folder: string, format: RowFormat, { from, until }: Shard, resume: boolean): void {
  const there = [...blocksIn(folder, format)].filter((block) => block >= from && block < until);
  if (resume || there.length === 0) return;
  throw badCall(
    'parts-there',
    `"${folder}" holds ${there.length} parts of this run`,
    'a run begins in a folder without them',
    'Give --resume to go on from there, or name another folder.',
  );
}

function readShard(text: string | undefined, blocks: number): Shard {
  if (text === undefined) return shardOf(1, 1, blocks);
  const [, number = '', of = ''] = /^(\d{1,9})\/(\d{1,9})$/.exec(text) ?? [];
  if (number === '' || Number(of) < 1 || Number(number) < 1 || Number(number) > Number(of)) {
    throw badCall('wrong-shard', `--shard is "${text}"`, 'it must be a number and how many there are, such as 3/8', 'Count shards from 1.');
  }
  return shardOf(Number(number), Number(of), blocks);
}

/** Rows on standard output, in the order of scenarios, until nobody reads them any more. */
async function printed(study: CompiledStudy, format: RowFormat, shard: Shard, blockScenarios: number): Promise<number> {
  const rows = Math.min(blockScenarios, 4096);
  const make = blockMaker(study, rows);
  const print = format === 'ndjson' ? ndjsonRows : csvRows;
  if (format === 'csv' && !writeStandardOutput(csvHead(study.columns))) return EXIT.done;
  const until = Math.min(study.scenarios, shard.until * blockScenarios);
  for (let from = shard.from * blockScenarios; from < until; from += rows) {
    const block = make(from, Math.min(until, from + rows));
    if (block === undefined || !writeStandardOutput(print(study.columns, block))) return EXIT.done;
    // An interrupt is heard here.
    await setImmediate();
  }
  return EXIT.done;
}
