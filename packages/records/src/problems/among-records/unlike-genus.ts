import { fold, figureOfGroup, perStandard, shown } from '../figures.js';
import { unlikeRelatives } from '../shape/unlike-relatives.js';
import type { ProblemContext } from '../problem-context.js';
import type { CollectionCheck, RecordEntry, Told } from './entry.js';

/** As within a genus of the stand-ins: a quarter. */
const APART = 1.25;

/** Fewer others say little: one of them may be the wrong one, and another the odd one. */
const FEWEST_OTHERS = 4;

const medianOf = (numbers: readonly number[]): number => {
  const sorted = [...numbers].sort((one, other) => one - other);
  const half = sorted.length >> 1;
  const [lower = Number.NaN, upper = Number.NaN] =
    sorted.length % 2 === 0 ? [sorted[half - 1], sorted[half]] : [sorted[half], sorted[half]];
  return (lower + upper) / 2;
};

function depthOf({ record }: RecordEntry, { standIns }: ProblemContext): number | undefined {
  const depth = record.shape?.bodyDepth;
  return depth?.basis === 'measured' || depth?.basis === 'derived' ? perStandard(depth, record, standIns) : undefined;
}

/** `unlike-genus`: for genera that the stand-ins do not have, the other records of the genus speak. */
export const unlikeGenus: CollectionCheck = ({ byGenus }, context) =>
  [...byGenus].flatMap(([genus, members]): Told[] => {
    if (members.length <= FEWEST_OTHERS || figureOfGroup(context.standIns, 'genus', genus, 'bodyDepth') !== undefined) return [];
    const depths = members.flatMap((entry) => {
      const depth = depthOf(entry, context);
      return depth === undefined ? [] : [{ entry, depth }];
    });
    if (depths.length <= FEWEST_OTHERS) return [];
    return depths.flatMap(({ entry, depth }, index): Told[] => {
      const others = medianOf(depths.filter((_, at) => at !== index).map((other) => other.depth));
      if (fold(depth, others) <= APART) return [];
      // Depths that the family speaks against are told there.
      if (unlikeRelatives(entry.record, context).length > 0) return [];
      return [
        {
          entry,
          problem: {
            code: 'unlike-genus',
            pointer: '/shape/bodyDepth',
            found: `shape.bodyDepth is ${shown(depth)}, and that of ${depths.length - 1} other records of ${genus} ${shown(others)} in the middle`,
            allowed: `bodies of one genus mostly lie between ${shown(others / APART)} and ${shown(others * APART)}`,
            fix: 'Look at the number and at the length it is a share of ("per"); where the species really is unlike its genus, say so in an exception.',
          },
        },
      ];
    });
  });
