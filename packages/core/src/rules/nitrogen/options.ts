import { NITRIFICATION_PER_M2 } from '../../biology/nitrification.js';
import { feedShareDefault } from '../feed.js';
import type { RuleDefault } from '../rule.js';

/** Thresholds of the rule, by name. */
export type NitrogenOption =
  | 'noteMgPerL'
  | 'warningMgPerL'
  | 'errorMgPerL'
  | 'ratePerM2'
  | 'feedShare'
  | 'frozenProtein'
  | 'dryProtein'
  | 'cycledMgPerL'
  | 'usualAcidity'
  | 'usualCel'
  | 'usualSalinity'
  | 'followDays'
  | 'warmCel';

export type NitrogenOptions = Readonly<Record<NitrogenOption, number>>;

export const nitrogenDefaults: Readonly<Record<NitrogenOption, RuleDefault>> = {
  noteMgPerL: {
    value: 0.02,
    unit: 'mg/L',
    basis: 'choice',
    note: 'Un-ionised ammonia, as nitrogen, that is worth knowing of: under half of what harms.',
  },
  warningMgPerL: { value: 0.05, unit: 'mg/L', basis: 'practice', note: 'The same from which it harms, after extension advice.' },
  errorMgPerL: {
    value: 0.233,
    unit: 'mg/L',
    basis: 'recalled',
    note: 'The same that must not be passed for an hour (seawater criterion); half of one anemonefish died at 0.75 in four days.',
  },
  ratePerM2: {
    value: NITRIFICATION_PER_M2,
    unit: 'g/m2/d',
    basis: 'measured',
    source: 'nijhof-bovendeur-1990',
    note: 'Ammonia nitrogen that a grown-in surface turns over in seawater at 24 °C.',
  },
  feedShare: feedShareDefault,
  frozenProtein: { value: 0.1, unit: '1', basis: 'recalled', note: 'Protein of frozen food as fed, with its water.' },
  dryProtein: { value: 0.45, unit: '1', basis: 'practice', note: 'Protein of dry food; where the protein is not told, it may be either.' },
  cycledMgPerL: { value: 1, unit: 'mg/L', basis: 'practice', note: 'Ammonia nitrogen that a tank found to be cycled turns over in a day.' },
  usualAcidity: { value: 8.4, unit: '[pH]', basis: 'practice', note: 'Highest pH of the day, where it is not told.' },
  usualCel: { value: 28, unit: 'Cel', basis: 'practice', note: 'Highest temperature, where it is not told.' },
  usualSalinity: { value: 33, unit: '1', basis: 'practice', note: 'Lowest salinity, where it is not told.' },
  followDays: { value: 60, unit: 'd', basis: 'choice', note: 'How long after the last batch the ammonia is followed.' },
  warmCel: { value: 27, unit: 'Cel', basis: 'practice', note: 'Water above this holds little oxygen at night.' },
};
