import { figureOfGroup, perStandard, shown } from '../figures.js';
import type { RecordCheck } from '../suspicion.js';

/** Width over depth from which a body counts as wider than deep: two measured figures are each off by 5 % as a rule. */
const WIDER = 1.1;

/** `wider-than-deep`: mostly the two figures have changed places. Families that are flat, and records that say so in a note, are left alone. */
export const widerThanDeep: RecordCheck = (record, { standIns }) => {
  const { bodyDepth, bodyWidth } = record.shape ?? {};
  const depth = perStandard(bodyDepth, record, standIns);
  const width = perStandard(bodyWidth, record, standIns);
  if (record.form !== 'fish' || depth === undefined || width === undefined || width <= depth * WIDER) return [];
  if (bodyDepth?.note !== undefined || bodyWidth?.note !== undefined) return [];
  const { family } = record.taxon;
  const usualDepth = figureOfGroup(standIns, 'family', family, 'bodyDepth');
  const usualWidth = figureOfGroup(standIns, 'family', family, 'bodyWidth');
  if (usualDepth !== undefined && usualWidth !== undefined && usualWidth > usualDepth) return [];
  return [
    {
      problem: {
        code: 'wider-than-deep',
        pointer: '/shape/bodyWidth',
        found: `shape.bodyWidth is ${shown(width)}, shape.bodyDepth is ${shown(depth)}`,
        allowed: 'most fishes are deeper than wide',
        fix: 'Look whether the two have changed places; where the body really is that flat, say so in a "note" of one of them.',
      },
      reads: ['/shape/bodyDepth'],
    },
  ];
};

/** `defence-below-depth`: spread spines and an inflated belly make a body deeper, never less deep. */
export const defenceBelowDepth: RecordCheck = (record, { standIns }) => {
  const depth = perStandard(record.shape?.bodyDepth, record, standIns);
  const defended = perStandard(record.shape?.defendedDepth, record, standIns);
  if (depth === undefined || defended === undefined || defended >= depth) return [];
  return [
    {
      problem: {
        code: 'defence-below-depth',
        pointer: '/shape/defendedDepth',
        found: `shape.defendedDepth is ${shown(defended)}, shape.bodyDepth is ${shown(depth)}`,
        allowed: 'the depth with spines spread or belly inflated is at least that of the body',
        fix: 'Give the whole depth, body and spines together, over the same length; look whether "per" is the same.',
      },
      reads: ['/shape/bodyDepth'],
    },
  ];
};
