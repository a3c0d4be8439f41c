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
  it('care with electricity and the duty never to release come with every species, once', () => {
    const record = withHazards('unus-primus');
    expect(cautionsOf([record, record, withHazards('duo-primus')])).toEqual([
      { kind: 'electricity', severity: 'duty', species: ['duo-primus', 'unus-primus'], message: 'caution.electricity' },
      {
        kind: 'never-release',
        severity: 'duty',
        species: ['duo-primus', 'unus-primus'],
        message: 'caution.neverRelease',
        sources: ['semmens-2004'],
      },
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
      ['caution.electricity', ['duo-primus', 'unus-primus']],
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

  it('names the sources of the records that say so', () => {
    const listed = (id: string, source?: string): SpeciesRecord =>
      inventedSpecies(id, {
        conservation: {
          cites:
            source === undefined
              ? { appendix: 'II', basis: 'recalled' }
              : { appendix: 'II', since: '2004-05-15', basis: 'measured', source },
        },
      });
    const sources = (...records: SpeciesRecord[]): unknown => cautionsOf(records).find(({ kind }) => kind === 'protected')?.sources;
    expect(sources(listed('unus-primus', 'reed-1999'), listed('duo-primus', 'ash-2001'), listed('tres-primus', 'reed-1999'))).toEqual([
      'ash-2001',
      'reed-1999',
    ]);
    expect(sources(listed('unus-primus'))).toBeUndefined();
  });

  it('first aid against venom names its source', () => {
    for (const severity of ['painful', 'dangerous'] as const) {
      expect(cautionsOf([withHazards('unus-primus', hazard('venom', severity))])[0]?.sources).toEqual(['atkinson-2006']);
    }
  });

  it('of soft corals, by what may live among them, whatever the species', () => {
    const [first, ...others] = cautionsOf([withHazards('unus-primus', hazard('venom', 'dangerous'))], { kept: ['clams', 'soft-corals'] });
    expect(first).toEqual({ kind: 'toxin', severity: 'dangerous', species: [], message: 'caution.palytoxin', sources: ['hamade-2015'] });
    expect(others.map(({ kind }) => kind)).toEqual(['venom', 'electricity', 'never-release']);
    expect(cautionsOf([], { kept: ['stony-corals', 'macroalgae'] })).toEqual([]);
    expect(cautionsOf([], { kept: ['soft-corals'] })).toHaveLength(1);
  });

  it('leaves illness to a veterinarian, once for all of whom a finding speaks of it', () => {
    const records = [withHazards('unus-primus'), withHazards('duo-primus')];
    const cautions = cautionsOf(records, { ailing: ['unus-primus', 'duo-primus', 'unus-primus'] });
    expect(cautions[0]).toEqual({
      kind: 'medication',
      severity: 'duty',
      species: ['duo-primus', 'unus-primus'],
      message: 'caution.medication',
    });
    expect(cautionsOf(records, { ailing: [] }).map(({ kind }) => kind)).toEqual(['electricity', 'never-release']);
  });

  it('the order of the records does not matter', () => {
    const records = [
      withHazards('unus-primus', hazard('cut', 'painful')),
      withHazards('duo-primus', hazard('sting', 'painful'), hazard('cut', 'painful')),
    ];
    expect(cautionsOf([...records].reverse())).toEqual(cautionsOf(records));
  });
});
