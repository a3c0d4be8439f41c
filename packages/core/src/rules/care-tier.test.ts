import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, onlyVerdict, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { careTier } from './care-tier.js';

const ofTier = (
  tier: number | undefined,
  provisions: NonNullable<NonNullable<SpeciesRecord['needs']>['provisions']>['list'] = [],
): SpeciesRecord =>
  recordWith('unus-primus', {
    needs: {
      ...(tier === undefined ? {} : { careTier: { value: tier, basis: 'practice' } }),
      ...(provisions.length === 0 ? {} : { provisions: { list: provisions, basis: 'practice' } }),
    },
  });

const kept = (tier: number | undefined, provisions: 'quiet-company'[] = [], settings: Situation['settings'] = {}): Situation =>
  situationWith({
    keeper: tier === undefined ? undefined : { careTier: tier, provisions },
    residents: [resident('unus-primus', 10)],
    settings,
  });

describe('care-tier', () => {
  it.each([
    [1, 1, 'passed'],
    [3, 3, 'passed'],
    [2, 1, 'failed warning care-tier.above'],
    [3, 2, 'failed warning care-tier.above'],
    [3, 1, 'failed error care-tier.farAbove'],
  ])('an animal of tier %i with a keeper of tier %i: %s', (tier, keeper, verdict) => {
    expect(onlyVerdict(checkBy(careTier, kept(keeper), [ofTier(tier)]))).toBe(verdict);
  });

  it('tier 3 without its provisions is an error one tier up, and a warning once they are made', () => {
    const record = ofTier(3, ['quiet-company', 'live-copepods']);
    const [finding] = checkBy(careTier, kept(2, ['quiet-company']), [record]).findings;
    expect(finding).toMatchObject({
      key: 'care-tier:animal=unus-primus',
      outcome: 'failed',
      level: 'error',
      message: 'care-tier.unprovided',
      when: null,
      basis: 'practice',
      data: {
        tier: { value: 3, unit: '1' },
        keeperTier: { value: 2, unit: '1' },
        needed: { keys: ['quiet-company', 'live-copepods'] },
        lacking: { keys: ['live-copepods'] },
      },
    });
    expect(onlyVerdict(checkBy(careTier, kept(2, ['quiet-company']), [ofTier(3, ['quiet-company'])]))).toBe(
      'failed warning care-tier.above',
    );
  });

  it('names what is missing: the tier of the animal', () => {
    const checked = checkBy(careTier, kept(2), [ofTier(undefined)]);
    expect(onlyVerdict(checked)).toBe('cantTell error care-tier.unknown');
    expect(checked.findings[0]?.data.missing).toEqual({ keys: ['needs.careTier'] });
  });

  it.each([
    [1, 'passed'],
    [2, 'cantTell warning care-tier.keeperUnknown'],
    [3, 'cantTell error care-tier.keeperUnknown'],
  ])('tier %i and nothing told of the keeper: %s', (tier, verdict) => {
    const checked = checkBy(careTier, kept(undefined), [ofTier(tier)]);
    expect(onlyVerdict(checked)).toBe(verdict);
    for (const { data } of checked.findings) expect(data.missing).toEqual({ keys: ['keeper.careTier'] });
  });

  it('a setting moves the step at which it is an error', () => {
    const settings = { thresholds: { 'care-tier': { stepsToError: 1 } } };
    expect(onlyVerdict(checkBy(careTier, kept(1, [], settings), [ofTier(2)]))).toBe('failed error care-tier.farAbove');
  });
});
