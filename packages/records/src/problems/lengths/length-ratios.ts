import { placeName } from '@commensal/schema';
import { figureOf, shown } from '../figures.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** `inverted-ratio`: a share of the total length where the total length over the other is asked for. */
export const invertedRatio: RecordCheck = (record) => {
  const { totalPerStandard, totalPerFork } = record.size ?? {};
  const ratios = [
    ['/size/totalPerStandard', totalPerStandard, 'standard'],
    ['/size/totalPerFork', totalPerFork, 'fork'],
  ] as const;
  return ratios.flatMap(([pointer, ratio, name]): Suspicion[] => {
    const centre = figureOf(ratio, '1')?.centre;
    if (centre === undefined || centre >= 1) return [];
    return [
      {
        problem: {
          code: 'inverted-ratio',
          pointer,
          found: `${placeName(pointer)} is ${shown(centre)}`,
          allowed: `total length over ${name} length is 1 or more`,
          fix: `Give one over it: ${shown(1 / centre)}.`,
        },
        // What was converted with it is wrong as well.
        doubts: [
          pointer,
          '/size/maximum',
          '/size/captiveAdult',
          '/size/entry',
          '/growth/asymptoticLength',
          '/size/weight',
          '/shape/bodyDepth',
        ],
      },
    ];
  });
};

/** `ratio-order`: the fork lies between the end of the body and the tips of the tail fin. */
export const ratioOrder: RecordCheck = (record) => {
  const standard = figureOf(record.size?.totalPerStandard, '1')?.centre;
  const fork = figureOf(record.size?.totalPerFork, '1')?.centre;
  if (standard === undefined || fork === undefined || fork <= standard) return [];
  return [
    {
      problem: {
        code: 'ratio-order',
        pointer: '/size/totalPerFork',
        found: `size.totalPerFork is ${shown(fork)}, size.totalPerStandard is ${shown(standard)}`,
        allowed: 'the fork length is at least the standard length, so that this ratio is the smaller one',
        fix: 'Look whether the two have changed places.',
      },
      reads: ['/size/totalPerStandard'],
    },
  ];
};
