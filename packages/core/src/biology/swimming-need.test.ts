import { describe, expect, it } from 'vitest';
import { swimmingNeed, swimmingShare } from './swimming-need.js';

describe('swimmingNeed', () => {
  it('is so many lengths along and across, and the water of that space', () => {
    expect(swimmingNeed(10, { length: 6, width: 2, height: 3 })).toEqual({ lengthCm: 60, widthCm: 20, waterL: 36 });
  });

  it('an animal twice as long needs twice the length and width and eight times the water', () => {
    const room = { length: 5, width: 2, height: 2 };
    const small = swimmingNeed(8, room);
    const large = swimmingNeed(16, room);
    expect(large.lengthCm).toBe(small.lengthCm * 2);
    expect(large.widthCm).toBe(small.widthCm * 2);
    // Twelve decimals: a division by 1000 is rounded.
    expect(large.waterL).toBeCloseTo(small.waterL * 8, 12);
  });
});

describe('swimmingShare', () => {
  const room = { length: 6, width: 2, height: 3 };

  it.each([
    ['length', [30, 40, 72], 0.5],
    ['width', [120, 5, 72], 0.25],
    ['water', [120, 40, 27], 0.75],
  ] as const)('is that of the %s where that is the smallest', (_, [tankCm, widthCm, waterL], share) => {
    expect(swimmingShare(tankCm, widthCm, waterL, 10, room)).toBe(share);
  });
});
