import type { SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, onlyVerdict, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { careTier } from './care-tier.js';

type Needs = NonNullable<SpeciesRecord['needs']>;

const needs: Needs = {
  careTier: { value: 3, basis: 'practice' },
  provisions: { list: ['live-food-at-first'], basis: 'practice' },
};
const verdict = (ifCaptiveBred: Needs['ifCaptiveBred'], origin?: 'captive-bred' | 'wild', keeperTier = 1): string =>
  onlyVerdict(
    checkBy(
      careTier,
      situationWith({ keeper: { careTier: keeperTier }, residents: [resident('unus-primus', 10, origin === undefined ? {} : { origin })] }),
      [recordWith('unus-primus', { needs: { ...needs, ...(ifCaptiveBred === undefined ? {} : { ifCaptiveBred }) } })],
    ),
  );

describe('care tier by origin', () => {
  it('tank-raised animals may be easier', () => {
    const easier = { careTier: { value: 1, basis: 'practice' as const } };
    expect(verdict(easier, 'captive-bred')).toBe('passed');
    expect(verdict(easier, 'wild')).toBe('failed error care-tier.farAbove');
    // Of unknown origin it counts as wild.
    expect(verdict(easier)).toBe('failed error care-tier.farAbove');
    expect(verdict(undefined, 'captive-bred')).toBe('failed error care-tier.farAbove');
  });

  it('and need other provisions', () => {
    const other = { provisions: { list: ['holdfasts' as const], basis: 'practice' as const } };
    const situation = situationWith({ keeper: { careTier: 2 }, residents: [resident('unus-primus', 10, { origin: 'captive-bred' })] });
    const record = recordWith('unus-primus', { needs: { ...needs, ifCaptiveBred: other } });
    expect(checkBy(careTier, situation, [record]).findings[0]).toMatchObject({
      message: 'care-tier.unprovided',
      data: { lacking: { keys: ['holdfasts'] } },
    });
  });
});
