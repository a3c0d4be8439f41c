import type { Codes } from './code.js';
import { OF_CALLS } from './of-calls.js';
import { OF_FILES } from './of-files.js';
import { OF_FORM } from './of-form.js';
import { OF_LENGTHS } from './of-lengths.js';
import { OF_RECORDS } from './of-records.js';
import { OF_SCHEMA } from './of-schema.js';
import { OF_SHAPE } from './of-shape.js';
import { OF_STUDIES } from './of-studies.js';
import { OF_TABLES } from './of-tables.js';
import { OF_WAYS } from './of-ways.js';

/**
 * The codes that a check of records may give, by what they are about.
 *
 * @example
 * RECORD_CODES['closed-mouth']?.level; // 'error'
 */
export const RECORD_CODES: Codes = {
  ...OF_FILES,
  ...OF_SCHEMA,
  ...OF_WAYS,
  ...OF_LENGTHS,
  ...OF_SHAPE,
  ...OF_RECORDS,
  ...OF_FORM,
};

/**
 * Every code there is, also those of calls, of tables, of situations and of studies. Each has a page in docs/problems.
 *
 * @example
 * PROBLEM_CODES['unknown-rule']?.foundIn; // 'call'
 */
export const PROBLEM_CODES: Codes = { ...OF_CALLS, ...OF_STUDIES, ...OF_TABLES, ...RECORD_CODES };
