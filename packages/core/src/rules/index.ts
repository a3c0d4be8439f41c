import { careTier } from './care-tier.js';
import { company } from './company.js';
import { entryGap } from './entry-gap.js';
import { entryOrder } from './entry-order.js';
import { familyBatch } from './family-batch.js';
import { gape } from './gape/index.js';
import { rockCrowding } from './rock-crowding.js';
import type { AnyRule } from './rule.js';
import { swimmingRoom } from './swimming-room.js';
import { water } from './water.js';

/** Every rule, in the order in which an adviser asks: the pair, the animal alone, the group, the order. The only list. */
export const rules: readonly AnyRule[] = [gape, careTier, swimmingRoom, water, company, rockCrowding, familyBatch, entryOrder, entryGap];
