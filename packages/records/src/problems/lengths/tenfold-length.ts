import { BASES } from '@commensal/core';
import { placeName } from '@commensal/schema';
import { figureOf, fold, shown } from '../figures.js';
import type { RecordCheck } from '../suspicion.js';
import type { BodyLength } from './body-lengths.js';

/**
 * Lengths of one species that lie five times apart or more are no variation: of 89 records of the sample the usual adult length is at least
 * 0.57 of the greatest, the length at entry at least 0.17. Half of tenfold, so that a slip is found where the true figures differ by two.
 */
export const TENFOLD = 5;

/** How near a length must come to the others, tenfold or a tenth, to be told as what would fit. */
const FITS = 2.5;

/** The greatest length that one of its lengths speaks for. */
const greatest = ({ cm, usualShare }: BodyLength): number => cm.high / usualShare;

const mean = (numbers: readonly number[]): number => Math.exp(numbers.reduce((sum, number) => sum + Math.log(number), 0) / numbers.length);

/** The one whose figure is worse founded; of equals the first. */
const weaker = (one: BodyLength, other: BodyLength): BodyLength => (BASES.indexOf(other.basis) > BASES.indexOf(one.basis) ? other : one);

/** The length that the others speak against, with what they say. */
function outlier(lengths: readonly BodyLength[]): readonly [odd: BodyLength, others: number] | undefined {
  const [one, other, ...more] = lengths;
  if (one === undefined || other === undefined) return undefined;
  if (more.length === 0) {
    if (fold(greatest(one), greatest(other)) < TENFOLD) return undefined;
    const odd = weaker(one, other);
    return [odd, greatest(odd === one ? other : one)];
  }
  for (const length of lengths) {
    const others = lengths.filter((each) => each !== length).map(greatest);
    // Without the one that is wrong the others agree.
    if (Math.max(...others) / Math.min(...others) >= TENFOLD) continue;
    if (fold(greatest(length), mean(others)) >= TENFOLD) return [length, mean(others)];
  }
  return undefined;
}

/** What a slip of one place would have made of it, where that would fit. */
function fitting(length: BodyLength, others: number): string | undefined {
  const factor = greatest(length) > others ? 0.1 : 10;
  const own = figureOf(length.length, 'cm');
  return own === undefined || fold(greatest(length) * factor, others) >= FITS ? undefined : `${shown(own.high * factor)} cm would fit`;
}

/** `tenfold-slip`: a length that the others speak against by so much that its decimal point or its unit must be wrong. */
export const tenfoldLength: RecordCheck = (_record, _context, lengths) => {
  const [odd, others] = outlier(lengths) ?? [];
  if (odd === undefined || others === undefined) return [];
  const fits = fitting(odd, others);
  const [other, ...more] = lengths.filter((length) => length !== odd);
  // Of two nobody knows which is wrong.
  const there = other === undefined || more.length > 0 ? undefined : fitting(other, greatest(odd));
  const look = there === undefined ? 'Look at the decimal point and the unit' : 'Look at the decimal point and the unit of both';
  return [
    {
      problem: {
        code: 'tenfold-slip',
        pointer: odd.pointer,
        found: `${placeName(odd.pointer)} is ${shown(odd.cm.high)} cm, and by its other lengths the animal grows to about ${shown(others)} cm`,
        allowed: `lengths of one species lie less than ${TENFOLD} times apart, allowing for what each of them is`,
        fix:
          fits === undefined
            ? `${look}.`
            : `${look}: ${fits}${there === undefined || other === undefined ? '' : ` here, or ${there} at ${placeName(other.pointer)}`}.`,
      },
      reads: lengths.map(({ pointer }) => pointer),
      doubts: [odd.pointer],
    },
  ];
};
