import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, recordWith, resident, situationWith, TANK } from '../../tests/support/scene.js';
import { water } from './water.js';

const base = recordWith('unus-primus').needs ?? {};
const wants = (needs: NonNullable<SpeciesRecord['needs']>, more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith('unus-primus', { needs: { ...base, ...needs }, ...more });

/** Findings on what is told in words. */
function verdicts(tank: Partial<Situation['tank']>, ...records: SpeciesRecord[]): string[] {
  const residents = records.map(({ id }) => resident(id, 10));
  return checkBy(water, situationWith({ tank: { ...TANK, ...tank }, residents }), records).findings.map(
    ({ key, outcome, level, message }) => `${key} ${outcome} ${level} ${message}`,
  );
}

const light = (value: 'dim' | 'moderate' | 'strong' | 'any') => wants({ light: { value, basis: 'practice' } });
const flow = (value: 'gentle' | 'moderate' | 'strong' | 'any') => wants({ flow: { value, basis: 'practice' } });

describe('light and flow', () => {
  it('that are not what is wanted are to decide', () => {
    expect(verdicts({ light: 'dim' }, light('strong'))).toEqual(['water:light=unus-primus failed warning water.light']);
    expect(verdicts({ light: 'strong' }, light('strong'))).toEqual([]);
    expect(verdicts({ flow: 'strong' }, flow('gentle'))).toEqual(['water:flow=unus-primus failed warning water.flow']);
    expect(verdicts({ flow: 'gentle' }, flow('gentle'))).toEqual([]);
  });

  it('are asked for only where some of its own is wanted', () => {
    expect(verdicts({}, light('any'))).toEqual([]);
    expect(verdicts({ light: 'strong', flow: 'strong' }, recordWith('unus-primus'))).toEqual([]);
    expect(verdicts({}, light('dim'))).toEqual(['water:light=unus-primus cantTell warning water.lightUnknown']);
    expect(verdicts({}, flow('strong'))).toEqual(['water:flow=unus-primus cantTell warning water.flowUnknown']);
  });
});

describe('copper', () => {
  const crab = recordWith('cancer-primus', { form: 'crab' });
  const snail = recordWith('limax-primus', { form: 'snail' });

  it.each([
    ['present', 'water:copper=cancer-primus failed error water.copper'],
    ['removed', 'water:copper=cancer-primus failed warning water.copperRemoved'],
    ['never', undefined],
  ] as const)('%s, with a crab and a fish: %s', (copper, verdict) => {
    expect(verdicts({ copper }, crab, recordWith('unus-primus'))).toEqual(verdict === undefined ? [] : [verdict]);
  });

  it('not told of, is asked for once, and not for fishes', () => {
    expect(verdicts({}, crab, snail)).toEqual(['water:copper=cancer-primus,copper=limax-primus cantTell note water.copperUnknown']);
    expect(verdicts({}, recordWith('unus-primus'))).toEqual([]);
  });
});
