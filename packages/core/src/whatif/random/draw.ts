import { philox4x32 } from './philox.js';

const WORDS = new Uint32Array(4);
const TWO_32 = 4294967296;
const TWO_26 = 67108864;
const TWO_52 = 4503599627370496;

/**
 * The draw of one stream for one scenario: a double in the open interval from 0 to 1, with 52 random bits. It hangs on its arguments alone,
 * so that scenario k is the same on any machine, in any shard and in any order, and another stream shifts nothing.
 *
 * Key: the seed. Counter: the scenario (two words), the replicate, the stream. Seed and scenario are whole numbers from 0 to 2^53 - 1,
 * replicate and stream from 0 to 2^32 - 1.
 *
 * @example
 * drawAt(20270301, streamOf('pip_cm'), 0, 0) === drawAt(20270301, streamOf('pip_cm'), 0, 0); // true
 */
export function drawAt(seed: number, stream: number, scenario: number, replicate: number): number {
  wordsAt(seed, stream, scenario, replicate, WORDS);
  return unitOf(WORDS[0] as number, WORDS[1] as number);
}

/** The four words that {@link drawAt} takes the first two of. */
export function wordsAt(seed: number, stream: number, scenario: number, replicate: number, out: Uint32Array): void {
  philox4x32(scenario, Math.floor(scenario / TWO_32), replicate, stream, seed, Math.floor(seed / TWO_32), out);
}

/** Two words as a double in the open interval from 0 to 1: the middle of one of 2^52 equal shares. */
export const unitOf = (high: number, low: number): number => ((high >>> 6) * TWO_26 + (low >>> 6) + 0.5) / TWO_52;

/**
 * The number of a stream by its name: 32-bit FNV-1a over the UTF-8 bytes of names in plain letters (Fowler, Noll & Vo; RFC 9923).
 *
 * @throws RangeError for a name with characters beyond ASCII.
 * @example
 * streamOf('foobar').toString(16); // 'bf9cf968'
 */
export function streamOf(name: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < name.length; at += 1) {
    const code = name.charCodeAt(at);
    if (code > 127) throw new RangeError(`streamOf: expected a name of ASCII characters, received "${name}"`);
    hash = Math.imul(hash ^ code, 0x01000193);
  }
  return hash >>> 0;
}
