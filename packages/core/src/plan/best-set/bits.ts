/** Sets of small whole numbers as bits in words of 32, several sets one after the other in one array. */

/** Words that so many numbers take. */
export const wordsFor = (count: number): number => Math.max(1, (count + 31) >>> 5);

/** Adds `number` to the set that starts at `at`. */
export function addBit(sets: Int32Array, at: number, number: number): void {
  const word = at + (number >>> 5);
  sets[word] = (sets[word] ?? 0) | (1 << (number & 31));
}

/** Takes `number` out of the set that starts at `at`. */
export function dropBit(sets: Int32Array, at: number, number: number): void {
  const word = at + (number >>> 5);
  sets[word] = (sets[word] ?? 0) & ~(1 << (number & 31));
}

/** Whether `number` is in the set that starts at `at`. */
export const hasBit = (sets: Int32Array, at: number, number: number): boolean =>
  (((sets[at + (number >>> 5)] ?? 0) >>> (number & 31)) & 1) === 1;

/** The lowest number in a word that is not 0. */
export const lowestBit = (word: number): number => 31 - Math.clz32(word & -word);

/** How many numbers a word holds. */
export function countBits(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
