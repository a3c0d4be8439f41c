/** Numbers as they are written, taken exactly: binary fractions would bring noise into figures that people typed in decimals. */

/** `digits` times ten to the `exponent`, negative where `negative`; zero has no digits. */
interface Written {
  readonly negative: boolean;
  readonly digits: string;
  readonly exponent: number;
}

function readNumber(number: string): Written {
  const [, sign = '', whole = '', fraction = '', power = '0'] = /^(-?)(\d+)(?:\.(\d+))?(?:[eE]([+-]?\d+))?$/.exec(number) ?? [];
  const all = (whole + fraction).replace(/^0+/, '');
  const digits = all.replace(/0+$/, '');
  if (digits === '') return { negative: false, digits, exponent: 0 };
  return { negative: sign === '-', digits, exponent: Number(power) - fraction.length + (all.length - digits.length) };
}

/**
 * Whether two numbers of JSON are the same, digit for digit, however they are written.
 *
 * @example
 * sameNumber('2.50', '25e-1'); // true
 */
export function sameNumber(one: string, other: string): boolean {
  const [a, b] = [readNumber(one), readNumber(other)];
  return a.negative === b.negative && a.digits === b.digits && a.exponent === b.exponent;
}

/** `number` less `minus`, times `times`, over `over`. */
export interface Linear {
  readonly minus?: bigint;
  readonly times: bigint;
  readonly over: bigint;
}

/** Exponents beyond these are beyond every number that JavaScript holds, and powers of ten of that size would fill the memory. */
const MOST_EXPONENT = 400;

/** Digits of a quotient: more than a double can tell apart, so that rounding it once more changes nothing. */
const DIGITS = 40;

const tenTo = (exponent: number): bigint => 10n ** BigInt(exponent);

/**
 * A number of JSON converted: computed exactly, then rounded once to the nearest number that JavaScript holds, and written as
 * `JSON.stringify` writes that. Undefined where the number is far beyond any that a record may hold.
 *
 * @example
 * converted('25.4', { times: 1n, over: 10n }); // '2.54'
 */
export function converted(number: string, { minus = 0n, times, over }: Linear): string | undefined {
  const { negative, digits, exponent } = readNumber(number);
  if (Math.abs(exponent) + digits.length > MOST_EXPONENT) return undefined;
  const whole = BigInt(digits) * (negative ? -1n : 1n) * tenTo(Math.max(0, exponent));
  const parts = tenTo(Math.max(0, -exponent));
  const dividend = (whole - minus * parts) * times;
  const divisor = parts * over;
  const shift = DIGITS + String(divisor).length;
  const shifted = (dividend < 0n ? -dividend : dividend) * tenTo(shift);
  // A digit behind for what the division leaves, so that a tie is taken for one only where it is one.
  const quotient = `${shifted / divisor}${shifted % divisor === 0n ? 0 : 1}`;
  return JSON.stringify(Number(`${dividend < 0n ? '-' : ''}${quotient}e-${shift + 1}`));
}
