import path from 'node:path';
import { summaryOf } from '@commensal/core';
import { type StudyManifest, type Study, studyProblems } from '@commensal/schema';
import { badCall, EXIT } from '../failure.js';
import { readDocument } from '../read-document.js';
import { writeOutput } from '../write-output.js';
import { blocksIn, readManifest } from '../whatif/folder.js';
import { partsSource } from '../whatif/parts-source.js';
import { sha256 } from '../whatif/hash.js';
import { canonical } from '../whatif/study-file.js';
import { summaryCsv } from '../whatif/summary-csv.js';
import { summaryDocument } from '../whatif/summary-document.js';
import { summaryText } from '../whatif/summary-text.js';
import { whole } from '../whatif/told.js';

export const SUMMARY_FORMATS = ['text', 'markdown', 'json', 'csv'] as const;

export interface MergeOptions {
  readonly format: (typeof SUMMARY_FORMATS)[number];
  readonly out?: string;
}

/** `commensal whatif --merge FOLDER`: whether the parts are complete, and what comes out. Returns the exit code. */
export async function runMerge(folder: string, { format, out }: MergeOptions): Promise<number> {
  const manifest = manifestOf(folder);
  refuseGaps(folder, manifest);
  const file = path.join(folder, 'study.json');
  const { document: study } = readDocument<Study>(file, studyProblems);
  if (sha256(canonical(study)) !== manifest.study) {
    throw badCall(
      'another-study',
      `"${file}" is not the study that the parts were made from`,
      'its hash stands in the manifest',
      'Put the study back.',
    );
  }
  const { design } = study;
  const summary = await summaryOf(partsSource(folder, manifest), {
    replicates: manifest.replicates,
    points: design.kind === 'sensitivity' ? design.points * manifest.replicates : undefined,
  });
  const document = summaryDocument(summary, manifest, study);
  if (format === 'json') writeOutput(`${JSON.stringify(document, null, 2)}\n`, out);
  else writeOutput(format === 'csv' ? summaryCsv(document) : summaryText(document, format), out);
  return EXIT.done;
}

function manifestOf(folder: string): StudyManifest {
  const manifest = readManifest(folder);
  if (manifest !== undefined) return manifest;
  throw badCall(
    'no-manifest',
    `"${folder}" holds no manifest.json`,
    'it must be the folder of a run',
    'Name the folder that was given as --out.',
  );
}

/** Every part must be there: what is missing would pull all shares. */
function refuseGaps(folder: string, { blocks, format }: StudyManifest): void {
  const there = blocksIn(folder, format);
  const missing = Array.from({ length: blocks }, (_, block) => block).filter((block) => !there.has(block));
  if (missing.length === 0) return;
  throw badCall(
    'parts-missing',
    `${whole(missing.length)} of ${whole(blocks)} parts are not there: ${runsOf(missing)}`,
    'a summary needs them all',
    `Run the study again with --out ${folder} --resume, or the shards that hold them.`,
  );
}

/** Numbers in a row as runs: 3 to 5, 9. */
function runsOf(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  const told = runs.slice(0, 8).map(([from, to]) => (from === to ? String(from) : `${from} to ${to}`));
  return runs.length > 8 ? `${told.join(', ')} and others` : told.join(', ');
}
