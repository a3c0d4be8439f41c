import type { Rule } from '../rule.js';
import { type FeedingsMeasure, judgeFeedings, measureFeedings, tellFeedings } from './feedings.js';
import { type FoodMeasure, judgeFood, measureFood, tellFood } from './food.js';
import { judgePace, measurePace, type PaceMeasure, tellPace } from './pace.js';
import { judgeSharing, measureSharing, type SharingMeasure, tellSharing } from './sharing.js';

/** One judgement: a special food, those that share one, a slow feeder among its mates, or how often one is fed. */
export type NicheMeasure = FoodMeasure | SharingMeasure | PaceMeasure | FeedingsMeasure;

/** Does each animal find its food, and enough of it, beside the others? */
export const niche: Rule<NicheMeasure, 'litresPerSpecialist' | 'quickMates'> = {
  id: 'niche',
  question: 'Does each animal find the food it lives on, often enough and before the others take it?',
  scope: 'tank',
  planning: 'recheck',
  // More water grows more of a scarce food.
  monotone: { water: 'better', rock: 'neither', fewerAnimals: 'better', delay: 'either' },
  needs: ['feeding.specialist', 'feeding.pace', 'feeding.feedings', 'tank.foods', 'tank.water', 'tank.feedingsPerDay', 'keeper.provisions'],
  sources: [],
  defaults: {
    litresPerSpecialist: {
      value: 300,
      unit: 'L',
      basis: 'practice',
      note: 'Water for each of several animals that live on one food that grows in the tank.',
    },
    quickMates: {
      value: 1,
      unit: '1',
      basis: 'choice',
      note: 'Quick feeders beside which a slow one goes short: a single one can clear a feeding.',
    },
  },

  measure(stock, _options, each) {
    measureFood(stock, each);
    measureSharing(stock, each);
    measurePace(stock, each);
    measureFeedings(stock, each);
  },

  judge(measure, options) {
    switch (measure.about) {
      case 'food':
        return judgeFood(measure);
      case 'sharing':
        return judgeSharing(measure, options);
      case 'pace':
        return judgePace(measure, options);
      case 'feedings':
        return judgeFeedings(measure);
    }
  },

  tell(measure, verdict, _stock, options) {
    switch (measure.about) {
      case 'food':
        return tellFood(measure);
      case 'sharing':
        return tellSharing(measure, verdict, options);
      case 'pace':
        return tellPace(measure, verdict);
      case 'feedings':
        return tellFeedings(measure, verdict);
    }
  },
};
