import { bibliography, standIns } from './data.js';
import { recordsCheck } from './records-check.js';
import { check, plan, rules } from './results.js';
import { situation } from './situation.js';
import { species } from './species.js';

/** Every document of the project, by the name of its schema file. */
export const documents = { species, situation, plan, check, rules, bibliography, 'stand-ins': standIns, 'records-check': recordsCheck };
export { VERSION } from './parts.js';
