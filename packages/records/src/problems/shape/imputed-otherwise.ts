import { placeName } from '@commensal/schema';
import { figureOf, figureOfGroup, fold, type RelativesFigure, shown } from '../figures.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** How far a stand-in in a record may be from the table it comes from: what rounding to three digits does, and a little. */
const ROUNDING = 1.01;

/** `imputed-otherwise`: a stand-in that is not, or is no longer, the figure of the group it names. */
export const imputedOtherwise: RecordCheck = (record, { standIns }) => {
  const { shape, size, growth, taxon } = record;
  const imputed = [
    ['/shape/bodyDepth', 'bodyDepth', shape?.bodyDepth],
    ['/shape/bodyWidth', 'bodyWidth', shape?.bodyWidth],
    ['/shape/lowerJaw', 'lowerJaw', shape?.lowerJaw],
    ['/size/totalPerStandard', 'totalPerStandard', size?.totalPerStandard],
    ['/growth/rate', 'growthRate', growth?.rate],
  ] as const satisfies readonly (readonly [string, RelativesFigure, unknown])[];
  return imputed.flatMap(([pointer, figure, quantity]): Suspicion[] => {
    if (quantity?.basis !== 'imputed' || (quantity.from !== 'genus' && quantity.from !== 'family')) return [];
    const name = taxon[quantity.from];
    const centre = figureOf(quantity, quantity.unit)?.centre;
    const ofGroup = figureOfGroup(standIns, quantity.from, name, figure);
    if (centre === undefined || ofGroup === undefined || fold(centre, ofGroup) <= ROUNDING) return [];
    return [
      {
        problem: {
          code: 'imputed-otherwise',
          pointer,
          found: `${placeName(pointer)} is ${shown(centre)}, taken from the ${quantity.from} ${name}, whose figure is ${shown(ofGroup)}`,
          allowed: 'what is imputed must be the figure of the group it names',
          fix: `Write ${shown(ofGroup)}; where the figure was published for the species, its basis is "measured".`,
        },
      },
    ];
  });
};
