import fc from 'fast-check';
import { expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { asymptoticFromMaximum } from './asymptotic-length.js';

it('of a maximum of 1 cm it is ten to the 0.044', () => {
  // Fourteen decimals: two roundings of a number near 1.
  expect(asymptoticFromMaximum(1)).toBeCloseTo(10 ** 0.044, 14);
});

it('ten times the maximum gives ten to the 0.9841 times the asymptote', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.5, max: 50, noNaN: true }), (maximum) => {
      // Twelve decimals of a ratio near 10: logarithms and exponentials are rounded.
      expect(asymptoticFromMaximum(maximum * 10) / asymptoticFromMaximum(maximum)).toBeCloseTo(10 ** 0.9841, 12);
    }),
    { numRuns: runs(200) },
  );
});

it('lies above the maximum of small fishes and below that of very large ones', () => {
  expect(asymptoticFromMaximum(10)).toBeGreaterThan(10);
  // 0.044 / (1 - 0.9841) = 2.767, so the two are equal at ten to the 2.767, 585 cm.
  expect(asymptoticFromMaximum(580)).toBeGreaterThan(580);
  expect(asymptoticFromMaximum(590)).toBeLessThan(590);
});
