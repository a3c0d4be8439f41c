import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, onlyVerdict, PEACEFUL, recordWith, resident, situationWith } from '../../tests/support/scene.js';
import { company } from './company.js';

type Company = NonNullable<NonNullable<SpeciesRecord['conduct']>['company']>;

const record = (told: Omit<Company, 'basis'> | undefined, ownKind: number | undefined = 0): SpeciesRecord =>
  recordWith('unus-primus', {
    conduct: {
      ...(told === undefined ? {} : { company: { ...told, basis: 'practice' } }),
      ...(ownKind === undefined ? {} : { pugnacity: { ...PEACEFUL, ownKind } }),
    },
  });

const so = (count: number, more: Partial<Situation> = {}): Situation =>
  situationWith({ residents: [resident('unus-primus', 10, { count })], ...more });

describe('company', () => {
  it.each([
    ['solitary', 1, 'passed'],
    ['solitary', 2, 'failed warning company.solitaryDoubled'],
    ['pair', 1, 'passed'],
    ['pair', 2, 'passed'],
    ['pair', 3, 'failed warning company.tooMany'],
    ['harem', 9, 'passed'],
    ['group', 2, 'failed warning company.tooFew'],
    ['group', 3, 'passed'],
    ['any', 1, 'passed'],
    ['any', 50, 'passed'],
  ] as const)('a species that lives %s, %i together: %s', (kind, count, verdict) => {
    expect(onlyVerdict(checkBy(company, so(count), [record({ kind })]))).toBe(verdict);
  });

  it('numbers on record go before what the word ordinarily means', () => {
    const told = { kind: 'group', least: 5, most: 7, dwindles: true } as const;
    expect(onlyVerdict(checkBy(company, so(8), [record(told)]))).toBe('failed warning company.tooMany');
    const [finding] = checkBy(company, so(4), [record(told)]).findings;
    expect(finding).toMatchObject({
      key: 'company:animal=unus-primus',
      message: 'company.tooFew',
      when: null,
      data: {
        count: { value: 4, unit: '1' },
        least: { value: 5, unit: '1' },
        most: { value: 7, unit: '1' },
        dwindles: { keys: ['dwindles'] },
      },
    });
  });

  it.each([
    [2, 'failed warning company.solitaryDoubled'],
    [3, 'failed error company.solitaryDoubled'],
  ])('too many of one with pugnacity %i to its own kind: %s', (ownKind, verdict) => {
    expect(onlyVerdict(checkBy(company, so(2), [record({ kind: 'solitary' }, ownKind)]))).toBe(verdict);
  });

  it('an unknown pugnacity counts as fierce', () => {
    const { pugnacity: _, ...conduct } = record({ kind: 'solitary' }).conduct ?? {};
    expect(onlyVerdict(checkBy(company, so(2), [recordWith('unus-primus', { conduct })]))).toBe('failed error company.solitaryDoubled');
  });

  it('two males of a harem are one too many, two of a group are not', () => {
    const males: Situation = so(3, {
      residents: [resident('unus-primus', 10, { count: 2, sex: 'male' }), resident('unus-primus', 10, { id: 'she', sex: 'female' })],
    });
    const [finding] = checkBy(company, males, [record({ kind: 'harem' })]).findings;
    expect(finding).toMatchObject({
      key: 'company:animal=she,animal=unus-primus',
      message: 'company.rivalMales',
      data: { males: { value: 2, unit: '1' } },
    });
    expect(onlyVerdict(checkBy(company, males, [record({ kind: 'group' })]))).toBe('passed');
  });

  it('counts those who will be there in the end, residents and newcomers', () => {
    const introductions = [{ date: '2027-05-01', animals: [{ id: 'late', species: 'unus-primus' }] }];
    const events = [{ kind: 'animal-removed' as const, date: '2027-06-01', animal: 'unus-primus' }];
    expect(onlyVerdict(checkBy(company, so(1, { introductions }), [record({ kind: 'solitary' })]))).toBe(
      'failed warning company.solitaryDoubled',
    );
    expect(onlyVerdict(checkBy(company, so(1, { introductions, events }), [record({ kind: 'solitary' })]))).toBe('passed');
  });

  it.each([
    [1, 3, 'cantTell warning company.unknown'],
    [2, 2, 'cantTell warning company.unknown'],
    [2, 3, 'cantTell error company.unknown'],
  ])('cannot tell without it: %i together, pugnacity %i: %s', (count, ownKind, verdict) => {
    const checked = checkBy(company, so(count), [record(undefined, ownKind)]);
    expect(onlyVerdict(checked)).toBe(verdict);
    expect(checked.findings[0]?.data.missing).toEqual({ keys: ['conduct.company'] });
  });

  it('how fierce is an error is a setting', () => {
    const settings = { thresholds: { company: { fiercePugnacity: 1 } } };
    expect(onlyVerdict(checkBy(company, so(2, { settings }), [record({ kind: 'solitary' }, 1)]))).toBe(
      'failed error company.solitaryDoubled',
    );
  });
});
