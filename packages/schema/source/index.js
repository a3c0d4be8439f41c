import { bibliography, standIns } from './data.js';
import { recordsCheck } from './records-check.js';
import { candidates, check, coverage, plan, rules } from './results.js';
import { situation } from './situation.js';
import { species } from './species.js';
import { study } from './study.js';
import { studyManifest } from './study-manifest.js';
import { studySummary } from './study-summary.js';

/** Every document of the project, by the name of its schema file. */
export const documents = {
  species,
  situation,
  study,
  'study-manifest': studyManifest,
  'study-summary': studySummary,
  plan,
  check,
  candidates,
  rules,
  coverage,
  bibliography,
  'stand-ins': standIns,
  'records-check': recordsCheck,
};
export { ROOT, VERSION } from './parts.js';
