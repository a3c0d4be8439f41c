/** Chances in contests against published experiments. */
import { describe, expect, it } from 'vitest';
import { chanceOfWinning } from '../../packages/core/src/biology/chance-of-winning.js';
import { effectiveLength } from '../../packages/core/src/biology/effective-length.js';

/** A resident of old and a newcomer of the day. */
const resident = (lengthCm: number): number => effectiveLength(lengthCm, 1000);
const newcomer = (lengthCm: number): number => effectiveLength(lengthCm, 0);

describe('convict cichlids, Wazlavek & Figler: owners and intruders of different lengths', () => {
  it.each([1.2, 1.25, 1.3])('an owner %d times as long wins', (ratio) => {
    // "Wins" is more than nine in ten here.
    expect(chanceOfWinning(effectiveLength(10 * ratio, 3), newcomer(10))).toBeGreaterThan(0.9);
    expect(chanceOfWinning(10 * ratio, 10)).toBeGreaterThan(0.9);
  });

  it('an intruder 20 to 30 % longer than an owner of three days is ahead, and without residence wins', () => {
    for (const ratio of [1.2, 1.25, 1.3]) {
      expect(chanceOfWinning(newcomer(10 * ratio), effectiveLength(10, 3))).toBeGreaterThan(0.8); // three days are worth 3.9 %
      expect(chanceOfWinning(10 * ratio, 10)).toBeGreaterThan(0.9);
    }
    expect(chanceOfWinning(newcomer(13), effectiveLength(10, 3))).toBeGreaterThan(0.9);
  });

  it.each([0.96, 0.98, 1, 1.02, 1.04])('at %d of the length it is even', (ratio) => {
    // Even: neither wins two in three, 0.35 to 0.65; the ends, 5 % apart, are tested by their own figures.
    expect(chanceOfWinning(10 * ratio, 10)).toBeGreaterThan(0.35);
    expect(chanceOfWinning(10 * ratio, 10)).toBeLessThan(0.65);
  });

  it('three days of residence give no significant edge between equals', () => {
    // Even, as above.
    expect(chanceOfWinning(effectiveLength(10, 3), newcomer(10))).toBeLessThan(0.65);
  });
});

it('1.25 times the length wins 0.948, 1.05 times 0.653', () => {
  // Three decimals, as printed.
  expect(chanceOfWinning(12.5, 10)).toBeCloseTo(0.948, 3);
  expect(chanceOfWinning(10.5, 10)).toBeCloseTo(0.653, 3);
});

it('clownfish ranks, each 1.26 times the length of the next (Buston & Cant 2006), are settled', () => {
  expect(chanceOfWinning(1.26, 1)).toBeGreaterThan(0.95);
  // Every rank over every lower one, in a queue of five.
  const queue = [0, 1, 2, 3, 4].map((rank) => 8 * 1.26 ** -rank);
  queue.forEach((dominant, rank) => {
    for (const subordinate of queue.slice(rank + 1)) expect(chanceOfWinning(dominant, subordinate)).toBeGreaterThan(0.95);
  });
});

it('residence alone, however long, is worth less than 20 % of length: a slightly larger settler outweighs a short one', () => {
  // Poulos & McCormick 2014 and McCormick & Weaver 2012 on damselfish.
  expect(chanceOfWinning(newcomer(12), resident(10))).toBeGreaterThan(0.5);
  expect(chanceOfWinning(resident(10), newcomer(10))).toBeGreaterThan(0.8);
  // An hour is worth less than 0.1 % of length.
  expect(chanceOfWinning(newcomer(10.1), effectiveLength(10, 1 / 24))).toBeGreaterThan(0.5);
});
