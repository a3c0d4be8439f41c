import type { Hazard, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { inventedSpecies } from '../../tests/support/invented.js';
import { cautionsOf } from './cautions.js';

const hazard = (kind: Hazard['kind'], severity: Hazard['severity'], part = 'spine'): Hazard => ({
  kind,
  severity,
  part,
  basis: 'practice',
});

const withHazards = (id: string, ...hazards: Hazard[]): SpeciesRecord => inventedSpecies(id, hazards.length === 0 ? {} : { hazards });

describe('cautionsOf', () => {
  it('the duty never to release comes with every species, once', () => {
    const record = withHazards('unus-primus');
    expect(cautionsOf([record, record, withHazards('duo-primus')])).toEqual([
      { kind: 'never-release', severity: 'duty', species: ['duo-primus', 'unus-primus'], message: 'caution.neverRelease' },
    ]);
    expect(cautionsOf([])).toEqual([]);
  });

  it('one caution a kind and severity, the dangerous first', () => {
    const cautions = cautionsOf([
      withHazards('unus-primus', hazard('venom', 'painful', 'fin'), hazard('venom', 'painful', 'gill'), hazard('bite', 'dangerous')),
      withHazards('duo-primus', hazard('venom', 'painful'), hazard('venom', 'dangerous')),
    ]);
    expect(cautions.map(({ message, species }) => [message, species])).toEqual([
      ['caution.bite.dangerous', ['unus-primus']],
      ['caution.venom.dangerous', ['duo-primus']],
      ['caution.venom.painful', ['duo-primus', 'unus-primus']],
      ['caution.neverRelease', ['duo-primus', 'unus-primus']],
    ]);
  });

  it.each([
    ['LC', false],
    ['NT', false],
    ['VU', true],
    ['EN', true],
    ['CR', true],
    ['EW', true],
    ['DD', false],
  ] as const)('red list category %s is protected: %s', (category, listed) => {
    const kinds = cautionsOf([inventedSpecies('unus-primus', { conservation: { iucn: { category, basis: 'recalled' } } })]).map(
      ({ kind }) => kind,
    );
    expect(kinds.includes('protected')).toBe(listed);
  });

  it('whatever stands under CITES is protected', () => {
    const [caution] = cautionsOf([inventedSpecies('unus-primus', { conservation: { cites: { appendix: 'II', basis: 'recalled' } } })]);
    expect(caution).toEqual({ kind: 'protected', severity: 'duty', species: ['unus-primus'], message: 'caution.protected' });
  });

  it('the order of the records does not matter', () => {
    const records = [
      withHazards('unus-primus', hazard('cut', 'painful')),
      withHazards('duo-primus', hazard('sting', 'painful'), hazard('cut', 'painful')),
    ];
    expect(cautionsOf([...records].reverse())).toEqual(cautionsOf(records));
  });
});
