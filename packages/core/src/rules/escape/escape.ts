import type { Rule } from '../rule.js';
import { judgeTop, measureTop, tellTop, type TopMeasure } from './over-the-top.js';
import { judgePumps, measurePumps, type PumpMeasure, tellPumps } from './pumps.js';

/** One judgement: an animal and the top of the tank, or an animal and the pumps. */
export type EscapeMeasure = TopMeasure | PumpMeasure;

/** Does the animal stay in the tank: not over the edge, not through a gap, not into a pump? */
// Not `escape`: a global goes by that name.
export const escaping: Rule<EscapeMeasure, never> = {
  id: 'escape',
  question: 'Can this animal get out over the edge or through a gap, or into a pump?',
  scope: 'animal',
  planning: 'option',
  gravest: 'warning',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'neither' },
  needs: [
    'conduct.escapes',
    'shape.bodyDepth',
    'size.entry',
    'needs.activity',
    'needs.flow',
    'tank.cover',
    'tank.gap',
    'tank.pumps',
    'keeper.provisions',
  ],
  sources: [],
  defaults: {},

  measure(stock, _options, each) {
    measureTop(stock, each);
    measurePumps(stock, each);
  },

  judge(measure) {
    return measure.about === 'top' ? judgeTop(measure) : judgePumps(measure);
  },

  tell(measure, verdict) {
    return measure.about === 'top' ? tellTop(measure, verdict) : tellPumps(measure);
  },
};
