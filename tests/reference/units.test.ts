/** Conversions against NIST Special Publication 811 (Guide for the Use of the International System of Units) [nist-sp811]. */
import { convert } from '@commensal/core';
import { describe, expect, it } from 'vitest';

describe('NIST SP 811', () => {
  // NIST prints the gallons; inch, pound and degree Fahrenheit are entered from memory.
  it.each([
    { name: 'gallon (US)', value: 1, from: '[gal_us]', to: 'L', published: 3.785412 },
    { name: 'gallon (imperial)', value: 1, from: '[gal_br]', to: 'L', published: 4.54609 },
    { name: 'inch', value: 1, from: '[in_i]', to: 'cm', published: 2.54 },
    { name: 'inch', value: 1, from: '[in_i]', to: 'mm', published: 25.4 },
    { name: 'pound (avoirdupois)', value: 1, from: '[lb_av]', to: 'kg', published: 0.4535924 },
    { name: 'degree Fahrenheit', value: 77, from: '[degF]', to: 'Cel', published: 25 },
  ])('$name: $value $from is $published $to', ({ value, from, to, published }) => {
    // Seven significant digits are what the tables print.
    expect(Number(convert(value, from, to).toPrecision(7))).toBe(published);
  });

  it('a US gallon is 231 cubic inches, an inch 2.54 cm', () => {
    // Twelve decimals: three products rounded in binary.
    expect(convert(1, '[gal_us]', 'L')).toBeCloseTo((231 * convert(1, '[in_i]', 'cm') ** 3) / 1000, 12);
  });
});
