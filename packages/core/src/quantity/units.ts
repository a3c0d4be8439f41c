/** One unit: what it measures, and how to get from it to the unit the library counts in. */
interface Unit {
  readonly measures: string;
  readonly factor: number;
  readonly offset?: number;
}

/**
 * UCUM codes the documents may use. Gallon, inch and pound are exact by definition
 * (NIST SP 811; the digits of inch and pound are from memory).
 */
const UNITS: ReadonlyMap<string, Unit> = new Map(
  Object.entries({
    cm: { measures: 'length', factor: 1 },
    mm: { measures: 'length', factor: 0.1 },
    '[in_i]': { measures: 'length', factor: 2.54 },
    L: { measures: 'volume', factor: 1 },
    '[gal_us]': { measures: 'volume', factor: 3.785411784 },
    '[gal_br]': { measures: 'volume', factor: 4.54609 },
    kg: { measures: 'mass', factor: 1 },
    g: { measures: 'mass', factor: 0.001 },
    mg: { measures: 'mass', factor: 0.000001 },
    '[lb_av]': { measures: 'mass', factor: 0.45359237 },
    Cel: { measures: 'temperature', factor: 1 },
    '[degF]': { measures: 'temperature', factor: 5 / 9, offset: 32 },
    a: { measures: 'time', factor: 1 },
    d: { measures: 'time', factor: 1 / 365.25 },
    '/a': { measures: 'rate', factor: 1 },
    '/d': { measures: 'frequency', factor: 1 },
    m2: { measures: 'area', factor: 1 },
    'g/d': { measures: 'mass a day', factor: 1 },
    'mg/d': { measures: 'mass a day', factor: 0.001 },
    '1': { measures: 'ratio', factor: 1 },
    '[pH]': { measures: 'acidity', factor: 1 },
    'kg/L': { measures: 'density', factor: 1 },
  }),
);

function unitOf(code: string): Unit {
  const unit = UNITS.get(code);
  if (unit === undefined) {
    throw new RangeError(`convert: expected a UCUM code among ${[...UNITS.keys()].join(', ')}, received "${code}"`);
  }
  return unit;
}

/**
 * Converts a number between UCUM units of the same kind: cm, mm, [in_i]; L, [gal_us], [gal_br]; kg, g, [lb_av];
 * Cel, [degF]; a (365.25 days), d.
 *
 * @throws RangeError for a unit that is not known or of another kind.
 * @example
 * convert(63.4, '[gal_us]', 'L'); // 239.9951071056
 */
export function convert(value: number, from: string, to: string): number {
  const source = unitOf(from);
  if (from === to) return value;
  const target = unitOf(to);
  if (source.measures !== target.measures) {
    throw new RangeError(`convert: expected a unit of ${source.measures}, received "${to}", a unit of ${target.measures}`);
  }
  const counted = (value - (source.offset ?? 0)) * source.factor;
  return counted / target.factor + (target.offset ?? 0);
}

/**
 * Whether numbers in one unit can be given in another: both known, and of one kind.
 *
 * @example
 * isConvertible('[in_i]', 'cm'); // true
 */
export const isConvertible = (from: string, to: string): boolean =>
  UNITS.get(from) !== undefined && UNITS.get(from)?.measures === UNITS.get(to)?.measures;
