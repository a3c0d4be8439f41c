import { LONGEST_SHARE } from '../../biology/can-swallow.js';
import { SQUEEZE } from '../../biology/swallow-limit.js';
import type { RuleDefault } from '../rule.js';

/** Thresholds of the rule, by name. */
export type GapeOption =
  | 'squeeze'
  | 'longestShare'
  | 'longestShareAtMost'
  | 'distensibleLimit'
  | 'distensibleLongestShare'
  | 'distensibleLongestShareAtMost'
  | 'smallShare'
  | 'lookBeyondYears';

export const gapeDefaults: Readonly<Record<GapeOption, RuleDefault>> = {
  squeeze: {
    value: SQUEEZE,
    unit: '1',
    basis: 'derived',
    source: 'mihalitsis-bellwood-2017',
    note: 'How much deeper than the bare opening a squeezed body may be: an error of the mouth, to its upper end.',
  },
  longestShare: {
    value: LONGEST_SHARE,
    unit: '1',
    basis: 'derived',
    source: 'dunic-baum-2017',
    note: 'Longest prey over the standard length of the swallower; the greatest of 86 fish found in stomachs was 0.62.',
  },
  longestShareAtMost: {
    value: 1,
    unit: '1',
    basis: 'choice',
    note: 'Upper end of the same: prey longer than the swallower passes as safe.',
  },
  distensibleLimit: { value: 0.5, unit: '1', basis: 'practice', note: 'Limit over standard length of mouths and bellies that stretch.' },
  distensibleLongestShare: {
    value: 2,
    unit: '1',
    basis: 'practice',
    note: 'Longest prey of theirs over their standard length: frogfishes are said to take prey of twice their own length.',
  },
  distensibleLongestShareAtMost: {
    value: 3,
    unit: '1',
    basis: 'choice',
    note: 'Upper end of the same: a moray many times as long as a frogfish passes as safe.',
  },
  smallShare: { value: 1 / 3, unit: '1', basis: 'choice', note: 'Prey under this share of the limit is an easy mouthful.' },
  lookBeyondYears: { value: 60, unit: 'a', basis: 'choice', note: 'How long after the horizon growth to full size is followed.' },
};

export type GapeOptions = Readonly<Record<GapeOption, number>>;
