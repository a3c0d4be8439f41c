/** Multipliers and Weyl increments of Philox 4x32. */
const M0 = 0xd2511f53;
const M1 = 0xcd9e8d57;
const W0 = 0x9e3779b9;
const W1 = 0xbb67ae85;
const ROUNDS = 10;

/**
 * Philox 4x32-10: four random words for a counter of four words and a key of two, without any state (Salmon, Moraes, Dror & Shaw 2011,
 * "Parallel random numbers: as easy as 1, 2, 3"). The words go to `out`, as unsigned 32-bit integers.
 */
export function philox4x32(c0: number, c1: number, c2: number, c3: number, k0: number, k1: number, out: Uint32Array): void {
  let [x0, x1, x2, x3] = [c0 | 0, c1 | 0, c2 | 0, c3 | 0];
  let [key0, key1] = [k0 | 0, k1 | 0];
  for (let round = 0; round < ROUNDS; round += 1) {
    const high0 = highWord(M0, x0);
    const low0 = Math.imul(M0, x0);
    const high1 = highWord(M1, x2);
    const low1 = Math.imul(M1, x2);
    x0 = high1 ^ x1 ^ key0;
    x1 = low1;
    x2 = high0 ^ x3 ^ key1;
    x3 = low0;
    key0 = (key0 + W0) | 0;
    key1 = (key1 + W1) | 0;
  }
  out[0] = x0;
  out[1] = x1;
  out[2] = x2;
  out[3] = x3;
}

/** The upper 32 bits of a product of two unsigned 32-bit integers, from products of their halves. */
function highWord(a: number, b: number): number {
  const aHigh = a >>> 16;
  const aLow = a & 0xffff;
  const bHigh = b >>> 16;
  const bLow = b & 0xffff;
  const middle = Math.imul(aHigh, bLow) + (Math.imul(aLow, bLow) >>> 16);
  const other = Math.imul(aLow, bHigh) + (middle & 0xffff);
  // Neither sum reaches 2^32, so that shifts see all of it.
  return Math.imul(aHigh, bHigh) + (middle >>> 16) + (other >>> 16);
}
