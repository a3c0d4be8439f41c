import { placeName } from '@commensal/schema';
import { ofRelatives, perStandard, shown } from '../figures.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** Sources that measured mouths closed, on preserved fishes: FishShapes v1 (Price et al. 2022). */
const CLOSED_MOUTHS = ['price-2022'];

/** `closed-mouth`: a bluefin trevally has 0.034 closed and 0.140 open, Cephalopholis urodeta 0.105 and 0.268. */
export const closedMouth: RecordCheck = (record) =>
  (['gapeWidth', 'swallowTrial'] as const).flatMap((name): Suspicion[] => {
    const source = record.shape?.[name]?.source;
    if (source === undefined || !CLOSED_MOUTHS.includes(source)) return [];
    const pointer = `/shape/${name}`;
    return [
      {
        problem: {
          code: 'closed-mouth',
          pointer,
          found: `${placeName(pointer)} has the source "${source}", which measured mouths of preserved fishes, closed`,
          allowed: 'a gape is the width of the open mouth',
          fix: 'Take it out: without it the lower jaw tells more. Or give a source that measured open mouths.',
        },
      },
    ];
  });

/**
 * Gape over lower jaw. Over 17 reef fishes that stand in both data sets the height of the open gape is 0.89 to 1.89 times the jaw (Dunic & Baum
 * 2017, Price et al. 2022), as wide as high save in plankton pickers; the bounds leave about 15 %.
 */
const LEAST = 0.75;
const MOST = 2.2;
/** Plankton pickers open a mouth higher than wide: Chromis 0.066 over a jaw of 0.142 (the same sources). */
const LEAST_OF_PLANKTON_PICKERS = 0.4;
/** Nine of ten jaws lie within 38 % of the mean of their family (leave-one-out over FishShapes v1). */
const OF_RELATIVES = 1.38;

/** `gape-against-jaw`: a mouth opens about as wide as its jaw is long; far less was measured closed. */
export const gapeAgainstJaw: RecordCheck = (record, { standIns }) => {
  const { shape, feeding } = record;
  if (shape?.longSnout?.value === true || shape?.gapeClass?.value === 'distensible') return [];
  const isMeasured = shape?.lowerJaw !== undefined && shape.lowerJaw.basis !== 'imputed';
  const jaw = isMeasured ? perStandard(shape.lowerJaw, record, standIns) : ofRelatives(record, standIns, 'lowerJaw')?.value;
  if (jaw === undefined) return [];
  const room = isMeasured ? 1 : OF_RELATIVES;
  const least = ((feeding?.mode?.value === 'plankton-picker' ? LEAST_OF_PLANKTON_PICKERS : LEAST) * jaw) / room;
  const most = MOST * jaw * room;
  return (['gapeWidth', 'swallowTrial'] as const).flatMap((name): Suspicion[] => {
    const gape = perStandard(shape?.[name], record, standIns);
    if (gape === undefined || (gape >= least && gape <= most)) return [];
    const pointer = `/shape/${name}`;
    return [
      {
        problem: {
          code: 'gape-against-jaw',
          pointer,
          found: `${placeName(pointer)} is ${shown(gape)}, and the lower jaw ${isMeasured ? '' : 'of its relatives '}is ${shown(jaw)}`,
          allowed: `with such a jaw a gape lies between ${shown(least)} and ${shown(most)}`,
          fix:
            gape < least
              ? 'Look whether the mouth was measured closed: then take it out. Where the jaws are long for picking, say so in shape.longSnout.'
              : 'Look at the decimal point and at the length it is a share of ("per"); mouths that stretch have the gapeClass "distensible".',
        },
        reads: ['/shape/lowerJaw'],
        doubts: [pointer],
      },
    ];
  });
};
