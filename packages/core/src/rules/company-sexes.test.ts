import type { Resident, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, onlyVerdict, PEACEFUL, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { company } from './company.js';

type Pugnacity = NonNullable<NonNullable<SpeciesRecord['conduct']>['pugnacity']>;
type Company = NonNullable<NonNullable<SpeciesRecord['conduct']>['company']>;
type SexChange = NonNullable<NonNullable<SpeciesRecord['lifeCycle']>['sexChange']>['value'];

const record = (kind: Company['kind'] | undefined, pugnacity: Partial<Pugnacity> = {}, sexChange?: SexChange): SpeciesRecord =>
  recordWith('unus-primus', {
    conduct: {
      pugnacity: { ...PEACEFUL, ...pugnacity },
      ...(kind === undefined ? {} : { company: { kind, least: 1, basis: 'practice' } }),
    },
    ...(sexChange === undefined ? {} : { lifeCycle: { sexChange: { value: sexChange, basis: 'practice' } } }),
  });

const verdict = (species: SpeciesRecord, ...sexes: (Resident['sex'] | undefined)[]): string => {
  const residents = sexes.map((sex, index) => resident('unus-primus', 10, { id: `n${index}`, ...(sex === undefined ? {} : { sex }) }));
  return onlyVerdict(checkBy(company, situationWith({ residents }), [species]));
};

describe('two of one sex', () => {
  it('that bite or kill each other are an error in any company', () => {
    const males = record('group', { maleToMale: 3 });
    expect(verdict(males, 'male', 'male', 'female')).toBe('failed error company.fightingMales');
    expect(verdict(males, 'male', 'female', 'female')).toBe('passed');
    expect(verdict(record('group', { maleToMale: 2 }), 'male', 'male')).toBe('passed');
    expect(verdict(record('any', { femaleToFemale: 4 }), 'female', 'female')).toBe('failed error company.fightingFemales');
    expect(verdict(record(undefined, { maleToMale: 3 }), 'male', 'male')).toBe('failed error company.fightingMales');
  });

  it('cannot be told from sexes that are not told: a note, as the buyer can choose', () => {
    expect(verdict(record('group', { maleToMale: 3 }), undefined, undefined)).toBe('cantTell note company.sexUnknown');
    expect(verdict(record('group', { maleToMale: 3 }), 'male', undefined)).toBe('cantTell note company.sexUnknown');
    expect(verdict(record('group', { maleToMale: 3 }), 'female', undefined)).toBe('passed');
    expect(verdict(record('group', { maleToMale: 3 }), undefined)).toBe('passed');
  });

  it.each([
    ['none', 'male', 'failed warning company.noPair'],
    ['male-to-female', 'male', 'passed'],
    ['male-to-female', 'female', 'failed warning company.noPair'],
    ['female-to-male', 'female', 'passed'],
    ['female-to-male', 'male', 'failed warning company.noPair'],
    ['both-ways', 'male', 'passed'],
    ['both-at-once', 'female', 'passed'],
    [undefined, 'male', 'cantTell warning company.pairUnknown'],
  ] as const)('as a pair of a species that changes sex %s, two of sex %s: %s', (sexChange, sex, expected) => {
    expect(verdict(record('pair', {}, sexChange), sex, sex)).toBe(expected);
  });

  it('a male and a female are a pair, and so are two of unknown sex', () => {
    expect(verdict(record('pair', {}, 'none'), 'male', 'female')).toBe('passed');
    expect(verdict(record('pair', {}, 'none'), undefined, undefined)).toBe('passed');
  });
});
