import { type Codes, codesOf } from './code.js';

/** Of lengths, growth and weight. */
export const OF_LENGTHS: Codes = {
  ...codesOf('record', 'error', {
    'inverted-ratio': [
      'A ratio of lengths is upside down.',
      'Papers print standard over total length as often as total over standard length. Every length that is converted with it would shrink where it should grow.',
      'Give one over it.',
    ],
    'ratio-order': [
      'Total over fork length is above total over standard length.',
      'The fork of the tail fin lies between the end of the body and its tips, so that the fork length is the longer of the two and its ratio the smaller.',
      'Look whether the two have changed places.',
    ],
    'length-type-of-form': [
      'The type of a length is one that this form of animal does not have.',
      'Standard and fork length need a tail fin; diameters and shell lengths are for animals without one.',
      'Give the type that was measured, or correct the form.',
    ],
    'tenfold-slip': [
      'A figure is so far off that its decimal point or its unit must be wrong.',
      'Lengths of one species lie five times apart only by a slip, and so do shapes of relatives, or a weight and the body it belongs to. A slip of the decimal point turns a goby into a grouper.',
      'Look at the source, the decimal point and the unit. The message names the number that would fit; take it only if the source has it.',
      'Where a species really is sold or measured at such a size, or built unlike all its relatives, and the source says so.',
    ],
    'longer-than-maximum': [
      'A length is above the greatest length on record.',
      'Mostly the greatest length is a standard length that was written down as a total one; then every swallow limit and every room is too small by a fifth or more.',
      'Look up which length the source measured, and give it as `lengthType`; else correct the number that is wrong.',
      'Where animals in tanks have been measured longer than any published one, and `size.maximum` is to stay what was published.',
    ],
    'entry-above-adult': [
      'It is longer when it enters than when it is grown.',
      'Mostly the two have changed places, or the adult length is that of another species.',
      'Correct the one that is wrong.',
      'Where traders sell wild animals larger than those that grow up in tanks.',
    ],
  }),
  ...codesOf('record', 'warning', {
    'far-below-maximum': [
      'The usual adult length lies far below the greatest length.',
      'In a sample of 89 records it is never below 0.57 of it. A unit in inches, or the greatest length of another species, looks like this.',
      'Look at the units, and whether both lengths are of this species.',
      'Where it is known to stay that small in tanks.',
    ],
    'length-type-missing': [
      'A length does not say which length it is.',
      'A third of all errors in lengths are standard lengths taken for total ones, a fifth to a third too short.',
      'Add `lengthType`: TL, SL, FL, DM or SH. Where the source does not say, leave TL and say so in a note.',
      'Where the source does not say, and a guess would be worse than the gap.',
    ],
    'asymptotic-length': [
      'Asymptotic and greatest length do not go together.',
      'The asymptotic length is the mean of a population and may be less than half of the greatest one; beyond 0.4 to 1.5 times it, the two are of other length types, units or species.',
      'Look at unit and length type of both, and take rate and asymptotic length from one study.',
      'Where a population really stays so small, and the source measured ages.',
    ],
    'growth-performance': [
      'No fish of that length grows at that rate.',
      'Rate and length go together: large fishes grow slowly. A rate a month or a day, or one from lengths alone, lies outside.',
      'Look whether the rate counts per year, and prefer rates from ages (otoliths).',
      'Where both figures come from one study that measured ages.',
    ],
    'lengths-apart': [
      'Sources disagree by more than 30 % how long the species grows.',
      'For one species in nine they do; mostly one of them is a standard length, at times the decimal point slipped.',
      'Look up what each of them measured, and give each its `lengthType`.',
      'Where both are right: another population, or a single giant.',
    ],
    'weights-apart': [
      'Sources disagree by more than 1.6 times how heavy the species is at 10 cm.',
      'For one species in four they do; mostly one is for standard lengths, or `a` was rounded to two decimals.',
      'Look at the length type and the digits of `a` in both sources.',
      'Where both are right: another season, or another population.',
    ],
    'weight-against-shape': [
      'The weight does not go with depth and width of the body.',
      'Fishes fill about 0.55 of an elliptic cylinder of their length, depth and width. Beyond 1.6 times that, `a` is mostly for another length type.',
      'Look whether `a` and `b` are for the length type given, and at the digits of `a`.',
      'Where the body is odd: long filaments, a box, a trunk with a thin tail.',
    ],
    'beyond-usual': [
      'A figure lies many times beyond what any animal has.',
      'A percentage given as a share, days given as years, the litres of a tank given as the litres of rock.',
      'Look at the decimal point, the unit, and what the figure is meant to be.',
      'Where a source says so of this species.',
    ],
  }),
};
