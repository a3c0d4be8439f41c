import { fold, figureOfGroup, perStandard, shown } from '../figures.js';
import { unlikeRelatives } from '../shape/unlike-relatives.js';
import type { ProblemContext } from '../problem-context.js';
import type { CollectionCheck, RecordEntry, Told } from './entry.js';

/** As within a genus of the stand-ins: a quarter. */
const APART = 1.25;

/** Fewer others say little: one of them may be the wrong one, and another the odd one. */
const FEWEST_OTHERS = 4;

/** The median of sorted numbers without the one at a place. */
function medianWithout(sorted: readonly number[], at: number): number {
  const left = sorted.length - 1;
  const numberAt = (index: number): number => sorted[index < at ? index : index + 1] ?? Number.NaN;
  return (numberAt((left - 1) >> 1) + numberAt(left >> 1)) / 2;
}

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
    depths.sort((one, other) => one.depth - other.depth);
    const sorted = depths.map(({ depth }) => depth);
    return depths.flatMap(({ entry, depth }, index): Told[] => {
      const others = medianWithout(sorted, index);
      if (fold(depth, others) <= APART) return [];
      // Depths that the family speaks against are told there.
      if (unlikeRelatives(entry.record, context, []).length > 0) return [];
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
