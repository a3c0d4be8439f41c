/** What the tests of this package know of each document: its schema, its examples, its validator and what says its problems. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import * as bibliographyValidator from '../src/generated/bibliography-validator.js';
import * as candidatesValidator from '../src/generated/candidates-validator.js';
import * as checkValidator from '../src/generated/check-validator.js';
import * as coverageValidator from '../src/generated/coverage-validator.js';
import * as planValidator from '../src/generated/plan-validator.js';
import * as recordsCheckValidator from '../src/generated/records-check-validator.js';
import * as rulesValidator from '../src/generated/rules-validator.js';
import * as situationValidator from '../src/generated/situation-validator.js';
import * as speciesValidator from '../src/generated/species-validator.js';
import * as standInsValidator from '../src/generated/stand-ins-validator.js';
import * as studyManifestValidator from '../src/generated/study-manifest-validator.js';
import * as studySummaryValidator from '../src/generated/study-summary-validator.js';
import * as studyValidator from '../src/generated/study-validator.js';
import {
  bibliographyProblems,
  candidatesProblems,
  checkProblems,
  coverageProblems,
  type Problem,
  planProblems,
  recordsCheckProblems,
  rulesProblems,
  SCHEMA_VERSION,
  situationProblems,
  speciesProblems,
  standInsProblems,
  studyManifestProblems,
  studyProblems,
  studySummaryProblems,
  type ValidationFault,
} from '../src/index.js';

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
export type Node = { readonly [key: string]: Json };

export interface NegativeExample {
  readonly breaks: string;
  readonly from: string;
  readonly patch: readonly { readonly op: string; readonly path: string; readonly value?: Json; readonly times?: number }[];
  readonly code: string;
  readonly pointer: string;
}

interface Validator {
  (data: unknown): boolean;
  errors?: readonly ValidationFault[] | null;
}

export interface DocumentUnderTest {
  readonly name: string;
  readonly schema: Node;
  readonly validate: Validator;
  readonly problems: (data: unknown) => Problem[];
  readonly positives: ReadonlyMap<string, Json>;
  /** One for each constraint of the schema. */
  readonly constraintNegatives: readonly NegativeExample[];
  /** What the schema cannot say. */
  readonly furtherNegatives: readonly NegativeExample[];
}

export const packageFolder: string = path.join(import.meta.dirname, '..');

export function readJson(...place: string[]): Json {
  return JSON.parse(readFileSync(path.join(packageFolder, ...place), 'utf8')) as Json;
}

function positivesOf(name: string): Map<string, Json> {
  const files = readdirSync(path.join(packageFolder, 'examples', name, 'positive'));
  return new Map(files.map((file) => [file, readJson('examples', name, 'positive', file)]));
}

function documentUnderTest(name: string, validate: Validator, problems: (data: unknown) => Problem[]): DocumentUnderTest {
  const negatives = (file: string): NegativeExample[] => readJson('examples', name, 'negative', file) as unknown as NegativeExample[];
  return {
    name,
    schema: readJson('schemas', SCHEMA_VERSION, `${name}.schema.json`) as Node,
    validate,
    problems,
    positives: positivesOf(name),
    constraintNegatives: negatives('constraints.json'),
    furtherNegatives: negatives('beyond-the-schema.json'),
  };
}

export const documentsUnderTest: readonly DocumentUnderTest[] = [
  documentUnderTest('species', speciesValidator.validate, speciesProblems),
  documentUnderTest('situation', situationValidator.validate, situationProblems),
  documentUnderTest('study', studyValidator.validate, studyProblems),
  documentUnderTest('study-manifest', studyManifestValidator.validate, studyManifestProblems),
  documentUnderTest('study-summary', studySummaryValidator.validate, studySummaryProblems),
  documentUnderTest('plan', planValidator.validate, planProblems),
  documentUnderTest('check', checkValidator.validate, checkProblems),
  documentUnderTest('candidates', candidatesValidator.validate, candidatesProblems),
  documentUnderTest('rules', rulesValidator.validate, rulesProblems),
  documentUnderTest('coverage', coverageValidator.validate, coverageProblems),
  documentUnderTest('bibliography', bibliographyValidator.validate, bibliographyProblems),
  documentUnderTest('stand-ins', standInsValidator.validate, standInsProblems),
  documentUnderTest('records-check', recordsCheckValidator.validate, recordsCheckProblems),
];
