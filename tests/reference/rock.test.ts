/** What rock takes up, with grain densities and porosities of coral rock. */
import { rockEnvelope, waterDisplaced } from '@commensal/core';
import { describe, expect, it } from 'vitest';

// Grain density of Acropora skeletons 2.781 to 2.873 kg/L, pores 33 to 70 % (Bucher et al. 1998, JEMBE); pores of patch-reef
// samples 45.3 % live and 33.7 % dead (Crane & Burke 2007, AAPG abstract 90067). The litres follow by arithmetic.
describe('20 kg of coral rock of 2.8 kg/L (Bucher et al. 1998)', () => {
  it('displace 7.14 litres of water once their pores are flooded', () => {
    expect(waterDisplaced(20, 2.8)).toBeCloseTo(7.14, 2); // the two decimals given
  });

  it.each([
    [0.33, 10.7],
    [0.45, 13.0],
    [0.6, 17.9],
  ])('with pores of %d have an envelope of %d litres (porosities: Bucher et al. 1998, Crane & Burke 2007)', (porosity, litres) => {
    // Half a unit of the one decimal given, and a hair for 12.987 printed as 13.0.
    expect(Math.abs(rockEnvelope(20, 2.8, porosity) - litres)).toBeLessThanOrEqual(0.05);
  });
});
