import type { Basis } from '@commensal/schema';
import { convert } from './units.js';

/** A number with the ends of its central 80 % and what it rests on. */
export interface Band {
  readonly low: number;
  readonly centre: number;
  readonly high: number;
  readonly basis: Basis;
}

/** What a band is read from: a quantity of a record, or a keeper's reading. */
export interface Quantity {
  readonly value?: number;
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
  readonly basis?: Basis;
}

/**
 * The factor between the centre and either end of a bare value, by what it rests on (our choice: published means of one
 * species agree within about 5 %; a computed value adds the error of its formula; practice and memory are rounder).
 * What stands in for a missing figure carries the published error of stand-ins instead.
 */
export const DEFAULT_SPREAD: Readonly<Record<Basis, number>> = {
  measured: 1.05,
  derived: 1.1,
  imputed: 1.25,
  practice: 1.25,
  recalled: 1.35,
};

/**
 * Reads a quantity as a band in the unit wanted. Without a value the centre is the middle of low and high; without low and
 * high the ends lie `spread` apart from the value, by default what its basis allows. A keeper's own reading has no basis and
 * counts as exact.
 *
 * @throws RangeError for a quantity with neither a value nor both low and high.
 * @example
 * bandOf({ value: 10, unit: 'cm', basis: 'practice' }, 'cm'); // { low: 8, centre: 10, high: 12.5, basis: 'practice' }
 */
export function bandOf(quantity: Quantity, unit: string, spread?: number): Band {
  const basis = quantity.basis ?? 'measured';
  const read = (value: number): number => convert(value, quantity.unit, unit);
  if (quantity.low !== undefined && quantity.high !== undefined) {
    const low = read(quantity.low);
    const high = read(quantity.high);
    const centre = quantity.value === undefined ? (low + high) / 2 : read(quantity.value);
    return { low, centre, high, basis };
  }
  if (quantity.value === undefined) throw new RangeError('bandOf: expected a value, or low and high, received neither');
  const centre = read(quantity.value);
  const factor = spread ?? (quantity.basis === undefined ? 1 : DEFAULT_SPREAD[basis]);
  return { low: centre / factor, centre, high: centre * factor, basis };
}

/** A band without width. */
export const exactly = (value: number, basis: Basis = 'measured'): Band => ({ low: value, centre: value, high: value, basis });

/** The band of a product with a plain number. */
export const scaled = (band: Band, factor: number): Band => ({
  low: band.low * factor,
  centre: band.centre * factor,
  high: band.high * factor,
  basis: band.basis,
});
