import type { Stock } from '../../stock/stock.js';
import { optionsOf, type Rule } from '../rule.js';
import { loadsOf } from './load.js';
import { nitrogenDefaults, type NitrogenOption } from './options.js';
import { highestPeak, judgePeak, measurePeaks, type PeakMeasure, peaksOverError, tellPeak } from './peak.js';
import { judgeLoad, type LoadMeasure, measureLoad, tellLoad } from './steady.js';
import { judgeWarmth, measureWarmth, tellWarmth, type WarmMeasure } from './warmth.js';

/** One judgement: the lasting load, the peak after a batch, or warm water. */
export type NitrogenMeasure = LoadMeasure | PeakMeasure | WarmMeasure;

/** Whether the rule could fail at level error: a doubt about one does not count. For a search that asks nothing else, at a fraction of the time. */
export const ammoniaMayBeAnError = (stock: Stock): boolean => {
  const options = optionsOf(nitrogen, stock);
  return peaksOverError(stock, loadsOf(stock, options), options);
};

/** The highest un-ionised ammonia after any batch with the middle of all figures, mg/L as N; undefined without batches, and where the start is not known. */
export function peakAmmonia(stock: Stock): number | undefined {
  const options = optionsOf(nitrogen, stock);
  return highestPeak(stock, loadsOf(stock, options), options);
}

/** Does the tank carry the ammonia, in the long run and after every batch? */
export const nitrogen: Rule<NitrogenMeasure, NitrogenOption> = {
  id: 'nitrogen',
  question: 'Can the filter turn over what these animals give off, in the long run and after every batch?',
  scope: 'tank',
  planning: 'recheck',
  monotone: { water: 'either', rock: 'neither', fewerAnimals: 'either', delay: 'either' },
  needs: [
    'size.entry',
    'size.weight',
    'growth',
    'feeding.dailyFeed',
    'tank.water',
    'tank.feed',
    'tank.filter',
    'tank.cycledOn',
    'tank.temperature',
    'tank.salinity',
    'tank.acidity',
    'introductions.date',
  ],
  sources: ['nijhof-bovendeur-1990', 'timmons', 'bell-2007', 'medeiros-2014', 'froese-2014', 'benson-krause-1984'],
  defaults: nitrogenDefaults,

  measure(stock, options, each) {
    const loads = loadsOf(stock, options);
    measureLoad(stock, loads, options, each);
    measurePeaks(stock, loads, options, each);
    measureWarmth(stock, options, each);
  },

  judge(measure, options) {
    switch (measure.what) {
      case 'load':
        return judgeLoad(measure);
      case 'peak':
        return judgePeak(measure, options);
      case 'warm':
        return judgeWarmth();
    }
  },

  tell(measure, verdict, stock, options) {
    switch (measure.what) {
      case 'load':
        return tellLoad(measure, verdict, options);
      case 'peak':
        return tellPeak(measure, verdict, stock, options);
      case 'warm':
        return tellWarmth(measure);
    }
  },
};
