import { expect, it } from 'vitest';
import { inventedStandIns } from '../../tests/support/invented.js';
import { standIn } from './stand-ins.js';

const SOURCE = { basis: 'derived', source: 'inventor-2027', formula: 'invented' } as const;
const TABLES = inventedStandIns(
  [
    { rank: 'genus', name: 'Unus', lowerJaw: { value: 0.15, unit: '1', ...SOURCE } },
    {
      rank: 'family',
      name: 'Unus',
      lowerJaw: { value: 0.1, unit: '1', ...SOURCE },
      bodyDepth: { low: 0.2, high: 0.4, unit: '1', ...SOURCE },
    },
  ],
  [{ figure: 'lowerJaw', rank: 'genus', percentile90: 0.32, basis: 'recalled' }],
);

it('finds a figure by rank and name, and nothing where either differs or the figure is missing', () => {
  expect(standIn(TABLES, 'genus', 'Unus', 'lowerJaw')?.centre).toBe(0.15);
  expect(standIn(TABLES, 'family', 'Unus', 'lowerJaw')?.centre).toBe(0.1);
  expect(standIn(TABLES, 'genus', 'Duo', 'lowerJaw')).toBeUndefined();
  expect(standIn(TABLES, 'genus', 'Unus', 'bodyDepth')).toBeUndefined();
  expect(standIn(undefined, 'genus', 'Unus', 'lowerJaw')).toBeUndefined();
});

it('whatever a figure rests on, as a stand-in it is imputed', () => {
  expect(standIn(TABLES, 'family', 'Unus', 'bodyDepth')).toEqual({ low: 0.2, centre: (0.2 + 0.4) / 2, high: 0.4, basis: 'imputed' });
});

it('the error counts for its own rank and figure only', () => {
  const spread = (rank: 'genus' | 'family'): number => {
    const band = standIn(TABLES, rank, 'Unus', 'lowerJaw');
    return (band?.high ?? Number.NaN) / (band?.centre ?? Number.NaN);
  };
  // Twelve decimals: a product and a quotient are rounded. 1.2816 and 1.6449 sigma bound 80 and 90 % of a normal curve.
  expect(spread('genus')).toBeCloseTo(1 + (0.32 * 1.2816) / 1.6449, 12);
  expect(spread('family')).toBeCloseTo(1.25, 12);
});
