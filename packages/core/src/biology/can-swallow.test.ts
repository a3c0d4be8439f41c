import { describe, expect, it } from 'vitest';
import { canSwallow } from './can-swallow.js';

describe('canSwallow', () => {
  it('a body as deep as the limit passes, a deeper one does not', () => {
    expect(canSwallow(10, 0.25, 2.5, 5)).toBe(true);
    expect(canSwallow(10, 0.25, 2.51, 5)).toBe(false);
  });

  it('a slender body longer than 0.70 of the standard length does not pass', () => {
    expect(canSwallow(10, 0.25, 1, 7)).toBe(true);
    expect(canSwallow(10, 0.25, 1, 7.01)).toBe(false);
  });

  it('the cap on length is an option, and Infinity lifts it', () => {
    expect(canSwallow(10, 0.25, 1, 9, 1)).toBe(true);
    expect(canSwallow(10, 0.25, 1, 11, 1)).toBe(false);
    expect(canSwallow(10, 0.25, 1, 1000, Number.POSITIVE_INFINITY)).toBe(true);
    expect(canSwallow(10, 0.25, 3, 1000, Number.POSITIVE_INFINITY)).toBe(false);
  });

  it('scaling every length alike changes nothing', () => {
    for (const scale of [0.25, 0.5, 2, 4]) {
      expect(canSwallow(10 * scale, 0.25, 2.5 * scale, 7 * scale, 0.75)).toBe(true);
      expect(canSwallow(10 * scale, 0.25, 2.625 * scale, 7 * scale, 0.75)).toBe(false);
    }
  });
});
