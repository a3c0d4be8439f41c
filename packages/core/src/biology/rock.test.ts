import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { rockClaim } from './rock-claim.js';
import { rockEnvelope, waterDisplaced } from './rock-envelope.js';

describe('rockClaim', () => {
  it('an adult claims the claim of an adult, half its length a quarter, twice its length four times as much', () => {
    expect(rockClaim(15, 20, 20)).toBe(15);
    expect(rockClaim(8, 10, 20)).toBe(2);
    expect(rockClaim(8, 40, 20)).toBe(32);
  });

  it('what claims nothing as an adult claims nothing on the way', () => {
    expect(rockClaim(0, 3, 20)).toBe(0);
  });

  it('never shrinks as the animal grows', () => {
    const length = fc.double({ min: 0.1, max: 60, noNaN: true });
    fc.assert(
      fc.property(length, length, length, (one, other, adult) => {
        expect(rockClaim(10, Math.max(one, other), adult)).toBeGreaterThanOrEqual(rockClaim(10, Math.min(one, other), adult));
      }),
      { numRuns: runs(200) },
    );
  });
});

describe('rockEnvelope and waterDisplaced', () => {
  it('rock without pores takes the place of as much water as its envelope', () => {
    expect(rockEnvelope(28, 2.8, 0)).toBe(10);
    expect(waterDisplaced(28, 2.8)).toBe(10);
  });

  it('half of pores doubles the envelope and displaces no more water', () => {
    expect(rockEnvelope(28, 2.8, 0.5)).toBe(20);
  });

  it('the solid share of the envelope is what displaces water', () => {
    const mass = fc.double({ min: 0.1, max: 500, noNaN: true });
    const density = fc.double({ min: 1, max: 3, noNaN: true });
    fc.assert(
      fc.property(mass, density, fc.double({ min: 0, max: 0.9, noNaN: true }), (kg, grain, porosity) => {
        // A relative 10^-14: three roundings.
        expect(Math.abs((rockEnvelope(kg, grain, porosity) * (1 - porosity)) / waterDisplaced(kg, grain) - 1)).toBeLessThanOrEqual(1e-14);
      }),
      { numRuns: runs(200) },
    );
  });
});
