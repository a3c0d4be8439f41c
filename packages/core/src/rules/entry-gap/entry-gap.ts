import { feedShareDefault } from '../feed.js';
import type { Rule } from '../rule.js';
import { type GapMeasure, judgeGap, measureGaps, tellGap } from './gap.js';
import { judgeSize, measureSizes, type SizeMeasure, tellSize } from './size.js';

/** One judgement: the days since the batch before, or how much of the food one batch is. */
export type EntryGapMeasure = GapMeasure | SizeMeasure;

/** Do filter and animals have the time to settle: are batches far enough apart, and none of them large at once? */
export const entryGap: Rule<EntryGapMeasure, 'gapDays' | 'largeShare' | 'feedShare'> = {
  id: 'entry-gap',
  question: 'Is there about a month between one batch and the next, and is none of them large at once?',
  scope: 'tank',
  planning: 'plan',
  gravest: 'warning',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'either', delay: 'either' },
  needs: ['enteredOn', 'introductions.date', 'size.entry', 'size.weight', 'growth', 'feeding.dailyFeed'],
  sources: [],
  defaults: {
    gapDays: { value: 28, unit: 'd', basis: 'practice', note: 'Days between batches, so that filter and animals settle.' },
    largeShare: { value: 0.5, unit: '1', basis: 'practice', note: 'Share of the food of the day above which a batch is large.' },
    feedShare: feedShareDefault,
  },

  measure(stock, options, each) {
    measureGaps(stock, each);
    measureSizes(stock, options, each);
  },

  judge(measure, options) {
    return measure.about === 'gap' ? judgeGap(measure, options) : judgeSize(measure, options);
  },

  tell(measure, _verdict, _stock, options) {
    return measure.about === 'gap' ? tellGap(measure, options) : tellSize(measure);
  },
};
