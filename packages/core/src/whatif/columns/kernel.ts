import { LEVELS } from '../../rules/levels.js';
import type { Verdict } from '../../rules/rule.js';
import { OUTCOMES } from '../scenario/outputs.js';
import { rankOf } from '../scenario/tally.js';

/**
 * What a rule comes to at worst in the scenario that the columns hold, as a rank; LEFT where that is too close to a limit, or too rare, to be told from columns. Then the rule itself is asked, so that
 * a kernel may compare otherwise than the rule does where that is quicker.
 */
export type Kernel = () => number;

export const LEFT = -1;

export const rankOfVerdict = ({ outcome, level }: Pick<Verdict, 'outcome' | 'level'>): number =>
  rankOf(OUTCOMES.indexOf(outcome), LEVELS.indexOf(level));

export const PASSED_RANK: number = rankOf(OUTCOMES.indexOf('passed'), 0);
export const INAPPLICABLE_RANK: number = rankOf(OUTCOMES.indexOf('inapplicable'), 0);
/** No judgement at all. */
export const NOTHING_RANK = 0;

/** What lies closer to a limit than this, in logarithms or relative to the limit, is left to the rule: the rounding of a few sums and exponentials, and much more. */
export const CLOSE = 1e-8;
