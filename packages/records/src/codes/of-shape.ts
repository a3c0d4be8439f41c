import { type Codes, codesOf } from './code.js';

/** Of depth, width, mouth and defence. */
export const OF_SHAPE: Codes = {
  ...codesOf('record', 'error', {
    'closed-mouth': [
      'The width of a closed mouth is used as gape.',
      'Museums measure mouths closed. A bluefin trevally has 0.034 of its length closed and 0.140 open: with the closed width a predator passes for harmless.',
      'Take it out; without it the lower jaw tells more. Or give a source that measured open mouths.',
    ],
    'defence-below-depth': [
      'It is less deep with its spines spread than without.',
      'Spines and an inflated belly add to the body. Mostly only the spines were measured, or the two are shares of different lengths.',
      'Give the whole depth, body and spines together, over the same length.',
    ],
    'swapped-figures': [
      'Two figures have changed places.',
      'Each is unlike that of its relatives, and would be like it in the place of the other. Depth and jaw taken for each other turn prey into predators.',
      'Look at the source, and let them change places.',
      'Where the source has them so, and says why.',
    ],
  }),
  ...codesOf('record', 'warning', {
    'unlike-relatives': [
      'A shape is unlike that of its genus or family.',
      'Nine of ten species lie within 19 % of their genus in depth and width, and within 35 % of their family. Beyond a quarter of the genus, or twice the family, it is mostly a slip, or a share of total length given as one of standard length.',
      'Look at the number and at the length it is a share of (`per`).',
      'Where the species really is unlike its relatives: a ribbon eel among morays, a seahorse among pipefishes.',
    ],
    'wider-than-deep': [
      'The body is wider than deep.',
      'Most fishes are deeper than wide, and mostly the two figures have changed places. Prey offer their depth to a mouth.',
      'Look at the source. Where the body really is flat, say so in a `note` of one of them, which needs no exception.',
      'Where no note has room for the reason.',
    ],
    'gape-against-jaw': [
      'The gape does not go with the lower jaw.',
      'A mouth opens about as wide as the jaw is long, 0.89 to 1.89 times over 17 reef fishes. Far less was mostly measured closed.',
      'Look how the mouth was measured. Where jaws are long for picking, say so in `shape.longSnout`; where the mouth stretches, in `shape.gapeClass`.',
      'Where open mouths or swallowed prey were measured, and the source says so.',
    ],
    'imputed-otherwise': [
      'A stand-in is not the figure of the group it names.',
      'Stand-ins are taken from the tables of genera and families, so that anybody can see where they come from. Mostly the table has changed since.',
      'Write the figure of the table; where the figure was published for the species, its basis is `measured`.',
      'Where another table is meant, which the source names.',
    ],
    'long-snout-missing': [
      'A long-snouted species lacks its flag.',
      'Jaws long for picking have no swallowing power: without the flag a butterflyfish counts as a predator.',
      'Add `shape.longSnout`.',
      'Where neither yes nor no can be said of the species.',
    ],
    'defence-missing': [
      'A spiny or inflating species lacks its depth in defence.',
      'A mouth that takes the body may not take the spread spines. Puffers go from 0.30 of their length to 0.51.',
      'Add `shape.defendedDepth`, with an honest basis.',
      'Where this species of the family has no such defence.',
    ],
    'hazard-missing': [
      'A species of a dangerous group lacks its hazard.',
      'Whoever reaches into the tank must know. Absence from a list of dangers is no proof of harmlessness.',
      'Add the entry to `hazards`, with where it sits and how bad it is.',
      'Where this species is known to be harmless.',
    ],
  }),
};
