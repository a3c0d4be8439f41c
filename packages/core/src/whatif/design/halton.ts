/**
 * Coordinate of point `at` of the Halton sequence in one dimension: the digits of `at` in a prime base, mirrored at the point (radical inverse; Halton
 * 1960). Point 0 is 0.
 *
 * @example
 * radicalInverse(5, 2); // 0.625
 */
export function radicalInverse(at: number, base: number): number {
  let rest = at;
  let value = 0;
  let digit = 1 / base;
  while (rest > 0) {
    value += (rest % base) * digit;
    rest = Math.floor(rest / base);
    digit /= base;
  }
  return value;
}

/** The first `count` primes: the bases of that many dimensions. */
export function firstPrimes(count: number): number[] {
  const primes: number[] = [];
  for (let number = 2; primes.length < count; number += 1) if (primes.every((prime) => number % prime !== 0)) primes.push(number);
  return primes;
}
