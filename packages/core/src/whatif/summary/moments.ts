/** Count, mean and spread of numbers that come one after the other. */
export interface Moments {
  readonly add: (value: number) => void;
  readonly count: () => number;
  readonly mean: () => number;
  /** Of a sample: with one less than the count. */
  readonly variance: () => number;
  readonly least: () => number;
  readonly greatest: () => number;
}

/**
 * Mean and variance without keeping the numbers, steady in rounding: `m += (x - m)/n`, `s += (x - m before)(x - m after)` (Welford 1962,
 * Technometrics 4: 419-420). The same numbers in the same order give the same digits.
 */
export function momentsOf(): Moments {
  let count = 0;
  let mean = 0;
  let squares = 0;
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  return {
    add: (value) => {
      count += 1;
      const before = value - mean;
      mean += before / count;
      squares += before * (value - mean);
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    },
    count: () => count,
    mean: () => (count === 0 ? Number.NaN : mean),
    variance: () => (count < 2 ? Number.NaN : squares / (count - 1)),
    least: () => (count === 0 ? Number.NaN : least),
    greatest: () => (count === 0 ? Number.NaN : greatest),
  };
}
