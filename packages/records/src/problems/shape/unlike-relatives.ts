import { placeName, type ShapeRatio, type SpeciesRecord } from '@commensal/schema';
import { fold, type OfRelatives, ofRelatives, perStandard, shown } from '../figures.js';
import { TENFOLD } from '../lengths/tenfold-length.js';
import type { ProblemContext } from '../problem-context.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';

type ShapeFigure = 'bodyDepth' | 'bodyWidth' | 'lowerJaw';

/**
 * How many times larger or smaller than the median of its genus a figure may be. Nine of ten species lie within 19 % for depth and width and
 * within 32 % for the jaw (leave-one-out over FishShapes v1, Price et al. 2022): a quarter more than that is worth a look.
 */
const OF_GENUS: Readonly<Record<ShapeFigure, number>> = { bodyDepth: 1.25, bodyWidth: 1.25, lowerJaw: 1.4 };

/** The same for a family, where nine of ten lie within 28 to 38 %: families hold odd shapes, so that only twice and half is asked about. */
const OF_FAMILY = 2;

interface Compared {
  readonly figure: ShapeFigure;
  readonly pointer: string;
  readonly own: number;
  readonly relatives: OfRelatives;
}

const allowedFold = ({ figure, relatives }: Compared): number => (relatives.rank === 'genus' ? OF_GENUS[figure] : OF_FAMILY);

const isUnlike = (compared: Compared): boolean => fold(compared.own, compared.relatives.value) > allowedFold(compared);

/** A jaw made long for picking is like that of no relative; a stand-in is its relatives. */
function isCompared(figure: ShapeFigure, ratio: ShapeRatio | undefined, record: SpeciesRecord): ratio is ShapeRatio {
  if (ratio === undefined || ratio.basis === 'imputed') return false;
  return figure !== 'lowerJaw' || record.shape?.longSnout?.value !== true;
}

function comparedFigures(record: SpeciesRecord, { standIns }: ProblemContext): Compared[] {
  return (['bodyDepth', 'bodyWidth', 'lowerJaw'] as const).flatMap((figure): Compared[] => {
    const ratio = record.shape?.[figure];
    if (!isCompared(figure, ratio, record)) return [];
    const own = perStandard(ratio, record, standIns);
    const relatives = ofRelatives(record, standIns, figure);
    return own === undefined || relatives === undefined ? [] : [{ figure, pointer: `/shape/${figure}`, own, relatives }];
  });
}

/** The two figures that would both be like those of relatives if they changed places. */
function swapped(all: readonly Compared[]): readonly [Compared, Compared] | undefined {
  const unlike = all.filter(isUnlike);
  for (const [index, one] of unlike.entries()) {
    for (const other of unlike.slice(index + 1)) {
      const changed = [
        { ...one, own: other.own },
        { ...other, own: one.own },
      ];
      if (!changed.some(isUnlike)) return [one, other];
    }
  }
  return undefined;
}

function aboutOne(compared: Compared): Suspicion {
  const { pointer, own, relatives, figure } = compared;
  const found = `${placeName(pointer)} is ${shown(own)}, that of its ${relatives.rank} ${relatives.name} ${shown(relatives.value)}`;
  const reads = ['/size/totalPerStandard'];
  if (fold(own, relatives.value) >= TENFOLD) {
    return {
      problem: {
        code: 'tenfold-slip',
        pointer,
        found,
        allowed: `the two lie less than ${TENFOLD} times apart`,
        fix: `Look at the decimal point: ${shown(own > relatives.value ? own / 10 : own * 10)} would be nearer.`,
      },
      reads,
      doubts: [pointer],
    };
  }
  const most = allowedFold(compared);
  return {
    problem: {
      code: 'unlike-relatives',
      pointer,
      found,
      allowed: `${figure === 'lowerJaw' ? 'jaws' : 'bodies'} of one ${relatives.rank} mostly lie between ${shown(relatives.value / most)} and ${shown(relatives.value * most)}`,
      fix: 'Look at the number and at the length it is a share of ("per"); where the species really is unlike its relatives, say so in an exception.',
    },
    reads,
    doubts: [pointer],
  };
}

/** `swapped-figures`, `tenfold-slip` and `unlike-relatives`: a shape that neither genus nor family has. */
export const unlikeRelatives: RecordCheck = (record, context) => {
  const all = comparedFigures(record, context);
  const pair = swapped(all);
  const alone = all.filter((compared) => isUnlike(compared) && pair?.includes(compared) !== true).map(aboutOne);
  if (pair === undefined) return alone;
  const [one, other] = pair;
  return [
    {
      problem: {
        code: 'swapped-figures',
        pointer: one.pointer,
        found: `${placeName(one.pointer)} is ${shown(one.own)} and ${placeName(other.pointer)} is ${shown(other.own)}, in its ${one.relatives.rank} ${shown(one.relatives.value)} and ${shown(other.relatives.value)}`,
        allowed: 'each would be like that of its relatives in the place of the other',
        fix: 'Let the two change places, once you have looked at the source.',
      },
      reads: [other.pointer],
    },
    ...alone,
  ];
};
