import { childPointer, type LengthWeight, placeName } from '@commensal/schema';
import { COMPARED_AT_CM, fold, gramsAtTen, shown, totalCm } from '../figures.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/**
 * How far greatest lengths of one species may lie apart. Of 100 ornamental species compared, 11 differ by more between sources, mostly total
 * against standard length, at times by a tenfold slip.
 */
export const LENGTHS_APART = 1.3;

/** How far weights at 10 cm may lie apart. Of 74 species compared 18 differ by more between sources, some because `a` was rounded. */
export const WEIGHTS_APART = 1.6;

/** `lengths-apart`: sources do not agree how long the species grows. */
export const lengthsApart: RecordCheck = (record, { standIns }) => {
  const own = totalCm(record.size?.maximum, record, standIns);
  if (own === undefined) return [];
  return (record.size?.maximumElsewhere ?? []).flatMap((length, index): Suspicion[] => {
    const other = totalCm(length, record, standIns);
    if (other === undefined || fold(own.centre, other.centre) <= LENGTHS_APART) return [];
    const pointer = childPointer('/size/maximumElsewhere', index);
    return [
      {
        problem: {
          code: 'lengths-apart',
          pointer,
          found: `size.maximum is ${shown(own.centre)} cm, ${placeName(pointer)} is ${shown(other.centre)} cm, both as total length`,
          allowed: `greatest lengths of one species lie within ${Math.round((LENGTHS_APART - 1) * 100)} % of each other`,
          fix: 'Look which of the two is a standard length and give it lengthType "SL"; look at the decimal points; else say in an exception why they differ.',
        },
        reads: ['/size/maximum'],
        doubts: [pointer],
      },
    ];
  });
};

/** `weights-apart`: sources do not agree how heavy the species is at 10 cm. */
export const weightsApart: RecordCheck = (record, { standIns }) => {
  const grams = (weight: LengthWeight | undefined): number | undefined =>
    weight === undefined ? undefined : gramsAtTen(weight, record, standIns);
  const own = grams(record.size?.weight);
  if (own === undefined) return [];
  return (record.size?.weightElsewhere ?? []).flatMap((weight, index): Suspicion[] => {
    const other = grams(weight);
    if (other === undefined || fold(own, other) <= WEIGHTS_APART) return [];
    const pointer = childPointer('/size/weightElsewhere', index);
    return [
      {
        problem: {
          code: 'weights-apart',
          pointer,
          found: `at ${COMPARED_AT_CM} cm, size.weight gives ${shown(own)} g and ${placeName(pointer)} ${shown(other)} g`,
          allowed: `weights of one species lie within ${WEIGHTS_APART} times each other`,
          fix: 'Look at the length type of both and at the digits of a, which some tables round to two decimals; else say in an exception why they differ.',
        },
        reads: ['/size/weight'],
        doubts: [pointer],
      },
    ];
  });
};
