import type { Rule } from '../rule.js';
import { type CountedMeasure, judgeCounted, measureCounted, tellCounted } from './counted.js';
import { judgePartner, measurePartners, type PartnerMeasure, tellPartner } from './partner.js';
import { judgeSand, measureSand, type SandMeasure, tellSand } from './sand.js';

/** One judgement: an animal and the sand, or all that need one sort of shelter, or an animal and its partners. */
export type ShelterMeasure = SandMeasure | CountedMeasure | PartnerMeasure;

/** Is the shelter there that the animals need? What they can do without is only noted. Needs of one sort add up. */
export const shelter: Rule<ShelterMeasure, never> = {
  id: 'shelter',
  question: 'Is there the sand, burrow, cave, hole, host or partner that these animals need?',
  scope: 'tank',
  planning: 'capacity',
  gravest: 'warning',
  // Another animal takes a hole, or is the partner that was missing; waiting brings the partner in, or another claimant.
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'either', delay: 'either' },
  needs: [
    'needs.shelter',
    'needs.sandDepth',
    'needs.sandGrain',
    'needs.partners',
    'conduct.company',
    'tank.sand.depth',
    'tank.sand.grain',
    'tank.shelters',
  ],
  sources: [],
  defaults: {},

  measure(stock, _options, each) {
    measureSand(stock, each);
    measureCounted(stock, each);
    measurePartners(stock, each);
  },

  judge(measure) {
    if (measure.about === 'sand') return judgeSand(measure);
    return measure.about === 'places' ? judgeCounted(measure) : judgePartner(measure);
  },

  tell(measure, verdict) {
    if (measure.about === 'sand') return tellSand(measure, verdict);
    return measure.about === 'places' ? tellCounted(measure, verdict) : tellPartner(measure);
  },
};
