/** Cases as files: small tanks, and what one rule finds in each, reasoned by hand. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Library, libraryOf } from '@commensal/core';
import type { Level, Situation, SpeciesRecord } from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import { recordWith } from '../../packages/core/tests/support/scene.js';
import { type Json, mergePatch, type Patch } from './merge-patch.js';

/** `rules/<id>.json`. Cases share the situation and the species of the file, and change what they need. */
export interface CaseFile {
  readonly rule: string;
  /** Arithmetic that all cases share. */
  readonly note?: string;
  readonly situation: Patch;
  readonly species?: SpeciesPatches;
  readonly cases: readonly CaseText[];
  /** Outcomes ("failed note") and messages that cannot come up, each with the reason. */
  readonly never: Readonly<Record<string, string>>;
}

/**
 * By id: a species of the sample with what is changed in it, or an invented one: a fully grown perching fish of 10 cm on which no rule
 * finds anything, with what is changed in it.
 */
export type SpeciesPatches = Readonly<Record<string, Patch>>;

export interface CaseText {
  readonly name: string;
  /** The arithmetic or the fact from which the expectation follows. */
  readonly why: string;
  readonly situation?: Patch;
  readonly species?: SpeciesPatches;
  /** All that the rule finds. */
  readonly finds: readonly Expected[];
  readonly passed: number;
  readonly inapplicable: number;
}

export interface Expected {
  readonly key: string;
  readonly outcome: 'failed' | 'cantTell';
  readonly level: Level;
  readonly message: string;
  /** ISO date, or null. */
  readonly when: string | null;
  /** The figures that matter, as `210 cm`, `2027-04-01` or words. */
  readonly data?: Readonly<Record<string, string>>;
}

/** A case ready to be judged. */
export interface Case extends CaseText {
  readonly document: Situation;
  readonly changed: readonly SpeciesRecord[];
  readonly library: Library;
}

const folder = path.join(path.dirname(fileURLToPath(import.meta.url)), 'rules');

/** Every file of cases, by name without its ending. */
export function caseFiles(): ReadonlyMap<string, CaseFile> {
  const names = readdirSync(folder).sort();
  return new Map(names.map((name) => [name.replace(/\.json$/, ''), JSON.parse(readFileSync(path.join(folder, name), 'utf8'))]));
}

const sampleById = new Map(records.map((record) => [record.id, record]));

export function casesOf({ situation, species = {}, cases }: CaseFile): Case[] {
  return cases.map((one): Case => {
    const patches = { ...species, ...one.species };
    const changed = Object.keys(patches).map((id): SpeciesRecord => {
      const whole = (sampleById.get(id) ?? recordWith(id)) as unknown as Json;
      const ofFile = mergePatch(whole, species[id] ?? {});
      return mergePatch(ofFile, one.species?.[id] ?? {}) as unknown as SpeciesRecord;
    });
    const others = records.filter(({ id }) => patches[id] === undefined);
    return {
      ...one,
      document: mergePatch(situation, one.situation ?? {}) as unknown as Situation,
      changed,
      library: libraryOf([...others, ...changed], standIns),
    };
  });
}

const OF_FILE = ['rule', 'note', 'situation', 'species', 'cases', 'never'];
const OF_CASE = ['name', 'why', 'situation', 'species', 'finds', 'passed', 'inapplicable'];
const OF_FINDING = ['key', 'outcome', 'level', 'message', 'when', 'data'];
const OPTIONAL = ['note', 'situation', 'species', 'data'];

/** What is misspelt or left out in a file, so that no expectation goes unread. */
export function misshapen(file: CaseFile): string[] {
  return [
    ...(file.situation === undefined ? ['the file lacks "situation"'] : []),
    ...strays('the file', file, OF_FILE),
    ...file.cases.flatMap((one) => [
      ...strays(`"${one.name}"`, one, OF_CASE),
      ...(one.finds ?? []).flatMap((finding) => strays(`"${one.name}", ${finding.key}`, finding, OF_FINDING)),
    ]),
  ];
}

const strays = (where: string, part: object, names: readonly string[]): string[] => [
  ...Object.keys(part)
    .filter((name) => !names.includes(name))
    .map((name) => `${where} has "${name}"`),
  ...names.filter((name) => !OPTIONAL.includes(name) && !Object.hasOwn(part, name)).map((name) => `${where} lacks "${name}"`),
];
