import { childPointer } from '@commensal/schema';
import { COMPARED_AT_CM, gramsAtTen, ofRelatives, perStandard, shown, totalPerStandard } from '../figures.js';
import { TENFOLD } from '../lengths/tenfold-length.js';
import { WEIGHTS_APART } from '../lengths/elsewhere.js';
import type { RecordCheck } from '../suspicion.js';

/**
 * How much of an elliptic cylinder as long, deep and wide as the body a fish fills, at 1 g/cm3: the median over the 14 species of the sample
 * whose weight and shape are both measured, which lie between 0.38 and 0.86.
 */
export const FILLED = 0.55;

/** `weight-against-shape` and `tenfold-slip`: a and b give a weight that a body so deep and wide cannot have. */
export const weightAgainstShape: RecordCheck = (record, { standIns }) => {
  const pointer = '/size/weight';
  const weight = record.size?.weight;
  const { bodyDepth, bodyWidth } = record.shape ?? {};
  const depth = perStandard(bodyDepth, record, standIns) ?? ofRelatives(record, standIns, 'bodyDepth')?.value;
  const width = perStandard(bodyWidth, record, standIns) ?? ofRelatives(record, standIns, 'bodyWidth')?.value;
  const ratio = totalPerStandard(record, standIns);
  const grams = weight === undefined ? undefined : gramsAtTen(weight, record, standIns);
  if (
    record.form !== 'fish' ||
    weight === undefined ||
    grams === undefined ||
    depth === undefined ||
    width === undefined ||
    ratio === undefined
  )
    return [];
  const standardCm = COMPARED_AT_CM / ratio;
  const expected = FILLED * (Math.PI / 4) * depth * width * standardCm * standardCm * standardCm;
  const off = grams / expected;
  const reads = [pointer, '/shape/bodyDepth', '/shape/bodyWidth', '/size/totalPerStandard'];
  const found = `at ${COMPARED_AT_CM} cm, size.weight gives ${shown(grams)} g, and a body so deep and wide has about ${shown(expected)} g`;
  if (off >= TENFOLD || off <= 1 / TENFOLD) {
    return [
      {
        problem: {
          code: 'tenfold-slip',
          pointer: childPointer(pointer, 'a'),
          found,
          allowed: `the two lie less than ${TENFOLD} times apart`,
          fix: 'Look at the decimal point of a, and whether it is for centimetres and grams.',
        },
        reads,
        doubts: [pointer],
      },
    ];
  }
  // Stand-ins, and what is from memory, are further off than this as a rule.
  const measured = weight.basis === 'measured' && bodyDepth?.basis === 'measured';
  if (!measured || (off <= WEIGHTS_APART && off >= 1 / WEIGHTS_APART)) return [];
  return [
    {
      problem: {
        code: 'weight-against-shape',
        pointer,
        found,
        allowed: `the two lie within ${WEIGHTS_APART} times each other`,
        fix: 'Look whether a is for the length type given (for standard lengths it is about twice as large), and at its digits; else say in an exception what is odd about the body.',
      },
      reads,
      doubts: [pointer],
    },
  ];
};
