import { type CompiledStudy, type Library, rules, studyOf } from '@commensal/core';
import { type Problem, type Study, studyProblems } from '@commensal/schema';
import { BadInput } from '../failure.js';
import { farDays } from '../far-days.js';
import { readDocument } from '../read-document.js';
import { unknownSpecies } from '../unknown-species.js';
import { sha256 } from './hash.js';

/** Reads a study and makes it ready; its problems are told with their places in the file. */
export function openStudy(file: string, library: Library): CompiledStudy {
  const { document, parsed } = readDocument<Study>(file, (data) => problemsIn(data, library));
  const { study, problems } = studyOf(document, library, rules);
  if (study === undefined || problems.length > 0) throw new BadInput(problems.map((problem) => parsed.locate(problem)));
  return study;
}

function problemsIn(data: unknown, library: Library): Problem[] {
  const situation = (data as { situation?: unknown } | null)?.situation;
  const ofSituation = [...unknownSpecies(situation, library), ...farDays(situation)].map((problem) => ({
    ...problem,
    pointer: `/situation${problem.pointer}`,
  }));
  const told = new Set(ofSituation.map(({ pointer }) => pointer));
  return [...studyProblems(data).filter(({ pointer }) => !told.has(pointer)), ...ofSituation];
}

/** JSON with its keys in order: two documents that say the same are the same text. */
export function canonical(value: unknown): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  const members = Object.entries(value).filter(([, member]) => member !== undefined);
  members.sort(([one], [other]) => (one < other ? -1 : 1));
  return `{${members.map(([key, member]) => `${JSON.stringify(key)}:${canonical(member)}`).join(',')}}`;
}

/** What a study hangs on beside its document: the records and the tables that fill their gaps. */
export const libraryHash = ({ records, standIns }: Library): string =>
  sha256(canonical({ records: [...records.keys()].sort().map((id) => records.get(id)), standIns }));
