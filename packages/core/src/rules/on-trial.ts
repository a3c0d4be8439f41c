import { appetite } from './appetite/index.js';
import { batchSize } from './batch-size.js';
import { dominance } from './dominance.js';
import { escaping } from './escape/index.js';
import { lockout } from './lockout.js';
import { maturity } from './maturity.js';
import { niche } from './niche/index.js';
import { nitrogen } from './nitrogen/index.js';
import { quarantine } from './quarantine.js';
import { rivalry } from './rivalry.js';
import type { AnyRule } from './rule.js';
import { shelter } from './shelter/index.js';

/**
 * Rules that can be handed to `check` beside the others but are not among them yet: they have unit tests and sentences, but the
 * laws of the whole set (nothing unknown ever settles a doubt, names and units do not matter) are not shown to hold for them,
 * and a plan is not proven best under them. A rule moves to the list in `index.ts` when both are.
 */
export const rulesOnTrial: readonly AnyRule[] = [
  appetite,
  rivalry,
  shelter,
  escaping,
  maturity,
  niche,
  dominance,
  nitrogen,
  quarantine,
  lockout,
  batchSize,
];
