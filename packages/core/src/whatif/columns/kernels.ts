import { appetite } from '../../rules/appetite/index.js';
import { entryGap } from '../../rules/entry-gap/index.js';
import type { AnyRule } from '../../rules/rule.js';
import { appetiteKernel } from './appetite.js';
import { claimsOn } from './claims.js';
import type { Columns } from './columns.js';
import { entryGapKernel } from './entry-gap.js';
import type { Kernel } from './kernel.js';

type Options = Readonly<Record<string, number>>;

/** What kernels share: worked out once a scenario for all of them. */
export interface Shared {
  readonly columns: Columns;
  readonly claimOn: (place: number) => number;
}

/** Lays out the kernel of a rule; undefined where it does not serve such a stock, which is left to the rule in every scenario. */
type LayOut = (shared: Shared, options: Options) => Kernel | undefined;

const KERNELS: ReadonlyMap<unknown, LayOut> = new Map<unknown, LayOut>([
  [appetite, appetiteKernel],
  [entryGap, entryGapKernel],
]);

/** The kernels of rules on these columns. */
export function kernelsOn(columns: Columns): (rule: AnyRule, options: Options) => Kernel | undefined {
  const shared: Shared = { columns, claimOn: claimsOn(columns) };
  return (rule, options) => KERNELS.get(rule)?.(shared, options);
}
