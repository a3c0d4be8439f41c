/**
 * Coordinate of point `at` of the Sobol sequence in the dimension of these direction numbers, as a 32-bit integer; over 2^32 it is the coordinate itself.
 * Points come in the order of the Gray code, computed at any place without the ones before (Antonov & Saleev 1979); point 0 is the
 * origin. `at` from 0 to 2^32 - 1.
 *
 * @example
 * sobolBits(2, directionNumbers(0)) / 2 ** 32; // 0.75
 */
export function sobolBits(at: number, directions: Int32Array): number {
  let bits = 0;
  let gray = (at ^ (at >>> 1)) >>> 0;
  for (let bit = 0; gray !== 0; bit += 1) {
    if (gray & 1) bits ^= directions[bit] as number;
    gray >>>= 1;
  }
  return bits >>> 0;
}
