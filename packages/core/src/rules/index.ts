import { appetite } from './appetite/index.js';
import { careTier } from './care-tier.js';
import { company } from './company.js';
import { dominance } from './dominance.js';
import { entryGap } from './entry-gap/index.js';
import { entryOrder } from './entry-order.js';
import { escaping } from './escape/index.js';
import { familyBatch } from './family-batch.js';
import { gape } from './gape/index.js';
import { lockout } from './lockout.js';
import { maturity } from './maturity.js';
import { niche } from './niche/index.js';
import { nitrogen } from './nitrogen/index.js';
import { quarantine } from './quarantine.js';
import { rivalry } from './rivalry.js';
import { rockCrowding } from './rock-crowding.js';
import type { AnyRule } from './rule.js';
import { shelter } from './shelter/index.js';
import { swimmingRoom } from './swimming-room.js';
import { water } from './water.js';

/** Every rule, in the order in which an adviser asks: the pair, the animal alone, the group, the order. The only list. */
export const rules: readonly AnyRule[] = [
  gape,
  appetite,
  rivalry,
  careTier,
  swimmingRoom,
  water,
  shelter,
  escaping,
  maturity,
  company,
  niche,
  rockCrowding,
  dominance,
  nitrogen,
  quarantine,
  familyBatch,
  entryOrder,
  entryGap,
  lockout,
];
