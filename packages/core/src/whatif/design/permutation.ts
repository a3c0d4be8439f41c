import { philox4x32 } from '../random/philox.js';

const WORDS = new Uint32Array(4);
const ROUNDS = 8;

/**
 * A shuffle of the whole numbers below `size`, place by place, without a table: a Feistel network of 8 rounds with Philox as the round function,
 * on the least even number of bits that holds `size`, walked on while it leads beyond (Black & Rogaway 2002, "Ciphers with arbitrary finite
 * domains"). Seed and stream choose the shuffle. `size` up to 2^50.
 *
 * @example
 * [0, 1, 2, 3].map((at) => shuffled(at, 4, 1, 0, 0)).sort(); // [0, 1, 2, 3]
 */
export function shuffled(at: number, size: number, seed: number, stream: number, replicate: number): number {
  let half = 1;
  while (half * half < size) half *= 2;
  let place = at;
  do place = mixed(place, half, seed, stream, replicate);
  while (place >= size);
  return place;
}

function mixed(at: number, half: number, seed: number, stream: number, replicate: number): number {
  let left = Math.floor(at / half);
  let right = at % half;
  for (let round = 0; round < ROUNDS; round += 1) {
    // The second word of the counter tells rounds apart from the draws of scenarios, which never reach it.
    philox4x32(right, 0x80000000 + round, replicate, stream, seed, Math.floor(seed / 4294967296), WORDS);
    const next = (left + ((WORDS[0] as number) % half)) % half;
    left = right;
    right = next;
  }
  return left * half + right;
}
