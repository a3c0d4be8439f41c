import { placeName } from '@commensal/schema';
import { shown, totalPerStandard } from '../figures.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';
import type { BodyLength } from './body-lengths.js';

/** How much longer than the greatest length another may be where their types differ: what the ratio between types is off by, as a rule. */
const CONVERSION = 1.1;

/**
 * Share of the greatest length that the usual adult length should at least reach. The least of 89 records of the sample is 0.57, of a
 * seahorse; our choice below that.
 */
const LEAST_ADULT = 0.4;

const typeOf = ({ length }: BodyLength): string => length.lengthType ?? 'TL';

/** Whether a greatest length would hold the other one if it were a standard length. */
const mayBeStandard = (maximum: BodyLength, other: BodyLength, ratio: number | undefined): boolean =>
  typeOf(maximum) === 'TL' && ratio !== undefined && ratio > 1 && other.cm.high <= maximum.cm.high * ratio * CONVERSION;

/** `longer-than-maximum`: what is usual in tanks or at entry cannot pass the greatest length on record. */
export const longerThanMaximum: RecordCheck = (record, { standIns }, lengths) => {
  const maximum = lengths.find(({ pointer }) => pointer === '/size/maximum');
  if (maximum === undefined) return [];
  const ratio = totalPerStandard(record, standIns);
  return lengths
    .filter(({ pointer }) => pointer === '/size/captiveAdult' || pointer === '/size/entry')
    .filter((other) => other.cm.high > maximum.cm.high * (typeOf(other) === typeOf(maximum) ? 1 : CONVERSION))
    .map((other): Suspicion => {
      const standard = mayBeStandard(maximum, other, ratio);
      return {
        problem: {
          code: 'longer-than-maximum',
          pointer: other.pointer,
          found: `${placeName(other.pointer)} goes up to ${shown(other.cm.high)} cm, size.maximum is ${shown(maximum.cm.high)} cm`,
          allowed: 'no length may pass the greatest one on record',
          fix: standard
            ? `Look whether size.maximum is a standard length: then its lengthType is "SL", which makes about ${shown(maximum.cm.high * (ratio ?? 1))} cm in total. Else correct the one that is wrong.`
            : 'Correct the one that is wrong.',
        },
        reads: [maximum.pointer],
      };
    });
};

/** `entry-above-adult`: animals are sold before they are grown, or just grown. */
export const entryAboveAdult: RecordCheck = (_record, _context, lengths) => {
  const entry = lengths.find(({ pointer }) => pointer === '/size/entry');
  const adult = lengths.find(({ pointer }) => pointer === '/size/captiveAdult');
  if (entry === undefined || adult === undefined || entry.cm.high <= adult.cm.high) return [];
  return [
    {
      problem: {
        code: 'entry-above-adult',
        pointer: entry.pointer,
        found: `size.entry goes up to ${shown(entry.cm.high)} cm, size.captiveAdult to ${shown(adult.cm.high)} cm`,
        allowed: 'animals are not longer when they enter than when they are grown',
        fix: 'Correct the one that is wrong; look whether the two have changed places.',
      },
      reads: [adult.pointer],
    },
  ];
};

/** `far-below-maximum`: a usual length far under the greatest one is mostly a wrong unit or another species. */
export const farBelowMaximum: RecordCheck = (_record, _context, lengths) => {
  const maximum = lengths.find(({ pointer }) => pointer === '/size/maximum');
  const adult = lengths.find(({ pointer }) => pointer === '/size/captiveAdult');
  if (maximum === undefined || adult === undefined || adult.cm.high >= maximum.cm.high * LEAST_ADULT) return [];
  return [
    {
      problem: {
        code: 'far-below-maximum',
        pointer: adult.pointer,
        found: `size.captiveAdult goes up to ${shown(adult.cm.high)} cm, size.maximum is ${shown(maximum.cm.high)} cm`,
        allowed: `the usual adult length mostly reaches ${LEAST_ADULT} of the greatest, or more`,
        fix: 'Look at the units, and whether both are of this species; where it stays so small in tanks, say so in an exception.',
      },
      reads: [maximum.pointer],
    },
  ];
};
