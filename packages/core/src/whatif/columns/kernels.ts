import { appetite } from '../../rules/appetite/index.js';
import { dominance } from '../../rules/dominance.js';
import { entryGap } from '../../rules/entry-gap/index.js';
import { escaping } from '../../rules/escape/index.js';
import { lockout } from '../../rules/lockout.js';
import { rivalry } from '../../rules/rivalry.js';
import { rockCrowding } from '../../rules/rock-crowding.js';
import type { AnyRule } from '../../rules/rule.js';
import { swimmingRoom } from '../../rules/swimming-room.js';
import { appetiteKernel } from './appetite.js';
import type { Columns } from './columns.js';
import { dominanceOn } from './dominance.js';
import { entryGapKernel } from './entry-gap.js';
import { escapeKernel } from './escape.js';
import type { Kernel } from './kernel.js';
import { lockoutOn } from './lockout.js';
import { type Places, placesOn } from './places.js';
import { type Refuges, refugesOn } from './refuges.js';
import { rivalryOn } from './rivalry.js';
import { rockCrowdingKernel } from './rock-crowding.js';
import { swimmingRoomKernel } from './swimming-room.js';

type Options = Readonly<Record<string, number>>;

/** What kernels share: worked out once a scenario for all of them. */
export interface Shared {
  readonly columns: Columns;
  readonly places: Places;
  readonly refuges: Refuges;
}

/** Lays out the kernel of a rule; undefined where it does not serve such a stock, which is left to the rule in every scenario. */
type LayOut = (shared: Shared, options: Options) => Kernel | undefined;

const KERNELS: ReadonlyMap<unknown, LayOut> = new Map<unknown, LayOut>([
  [appetite, appetiteKernel],
  [rivalry, rivalryOn as LayOut],
  [dominance, dominanceOn as LayOut],
  [entryGap, entryGapKernel],
  [lockout, lockoutOn as LayOut],
  [rockCrowding, rockCrowdingKernel as LayOut],
  [swimmingRoom, swimmingRoomKernel as LayOut],
  [escaping, escapeKernel],
]);

/** The kernels of rules on the columns of a stock, and the places that they have asked for so far. */
export interface Kernels {
  /** Undefined where a rule has none, or none for such a stock. */
  readonly kernelOf: (rule: AnyRule, options: Options) => Kernel | undefined;
  readonly placesSoFar: () => Places | undefined;
}

export function kernelsOn(columns: Columns): Kernels {
  let shared: Shared | undefined;
  const share = (): Shared => {
    const places = placesOn(columns);
    return { columns, places, refuges: refugesOn(places) };
  };
  return {
    kernelOf: (rule, options) => {
      const layOut = KERNELS.get(rule);
      if (layOut === undefined) return undefined;
      // What no rule asks for is not read either.
      shared ??= share();
      return layOut(shared, options);
    },
    placesSoFar: () => shared?.places,
  };
}
