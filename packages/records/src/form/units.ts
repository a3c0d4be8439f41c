import type { Linear } from './decimal.js';

/** The unit that records are written in, and the way there. */
export interface Canonical extends Linear {
  readonly unit: string;
}

/**
 * The units that a record may use and that are written in another one, by their UCUM codes. Inch and gallon are exact by
 * definition (NIST SP 811; the digits of the inch are from memory), the scale of Fahrenheit is that of its definition.
 *
 * @example
 * CANONICAL_UNITS.get('mm')?.unit; // 'cm'
 */
export const CANONICAL_UNITS: ReadonlyMap<string, Canonical> = new Map([
  ['mm', { unit: 'cm', times: 1n, over: 10n }],
  ['[in_i]', { unit: 'cm', times: 254n, over: 100n }],
  ['[gal_us]', { unit: 'L', times: 3_785_411_784n, over: 1_000_000_000n }],
  ['[degF]', { unit: 'Cel', minus: 32n, times: 5n, over: 9n }],
]);
