import type { Basis, Length, SpeciesRecord, StandIns } from '@commensal/schema';
import { type Figure, totalCm } from '../figures.js';

/** A length of a record that tells how long the animal grows. */
export interface BodyLength {
  readonly pointer: string;
  /** What it is, in a sentence. */
  readonly name: string;
  readonly length: Length;
  /** Total length in cm. */
  readonly cm: Figure;
  readonly basis: Basis;
  /**
   * Its high end over the greatest length on record, usually (medians of 89 records of the sample, and of the 19 of them with an asymptotic
   * length).
   */
  readonly usualShare: number;
}

/** The lengths of a record, as total length; those that cannot be converted are left out. */
export function bodyLengths(record: SpeciesRecord, standIns: StandIns): BodyLength[] {
  const { maximum, captiveAdult, entry } = record.size ?? {};
  const all: readonly [pointer: string, name: string, length: Length | undefined, usualShare: number][] = [
    ['/size/maximum', 'the greatest length', maximum, 1],
    ['/size/captiveAdult', 'the usual adult length', captiveAdult, 0.86],
    ['/size/entry', 'the length at entry', entry, 0.57],
    ['/growth/asymptoticLength', 'the asymptotic length', record.growth?.asymptoticLength, 0.92],
  ];
  return all.flatMap(([pointer, name, length, usualShare]) => {
    const cm = totalCm(length, record, standIns);
    return length === undefined || cm === undefined ? [] : [{ pointer, name, length, cm, basis: length.basis, usualShare }];
  });
}
