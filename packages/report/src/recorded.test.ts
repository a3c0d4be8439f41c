import type { SpeciesRecord } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { library, metric, plain, us } from '../tests/support/club.js';
import { factsAt, sayRecorded } from './recorded.js';
import type { Voice } from './voice.js';

const practice = { basis: 'practice' } as const;

/** What is said of the first entry of a field. */
function said(more: Partial<SpeciesRecord>, field: string, voice: Voice = metric): string {
  const record = { ...(library.records.get('vigilia-prima') as SpeciesRecord), ...more };
  const [fact] = factsAt(record, field);
  if (fact?.entries[0] === undefined) throw new Error(`nothing stands at ${field}`);
  return plain(sayRecorded(voice, fact.field, fact.entries[0]));
}

const entry = (more: object): Partial<SpeciesRecord> => ({ size: { entry: { unit: 'cm', ...practice, ...more } } });

test.each([
  ['a value', { value: 6 }, '6 cm'],
  ['a range', { low: 4, high: 8 }, '4 cm to 8 cm'],
  ['a range that was observed', { low: 4, high: 8, interval: 'range' }, '4 cm to 8 cm (range observed)'],
  ['a value and its band', { value: 6, low: 4, high: 8 }, '6 cm (4 cm to 8 cm, central 80 %)'],
  ['a value and all that was observed', { value: 6, low: 4, high: 8, interval: 'range' }, '6 cm (4 cm to 8 cm, range observed)'],
  ['a type of length', { value: 6, lengthType: 'SL' }, '6 cm standard length'],
  ['a length across', { value: 6, lengthType: 'DM' }, '6 cm in diameter'],
  ['another unit', { value: 65, unit: 'mm' }, '6.5 cm'],
])('%s', (_, more, expected) => expect(said(entry(more), 'size.entry')).toBe(expected));

test('lengths go with the units of the reader', () => {
  expect(said(entry({ value: 6 }), 'size.entry', us)).toBe('2.36 in');
  expect(said(entry({ value: 2, unit: '[in_i]' }), 'size.entry')).toBe('5.1 cm');
});

test.each<[string, Partial<SpeciesRecord>, string, string]>([
  ['a share', { shape: { lowerJaw: { value: 0.1626, unit: '1', per: 'SL', ...practice } } }, 'shape.lowerJaw', '0.163 of standard length'],
  [
    'a rate',
    { growth: { rate: { value: 0.47, low: 0.32, high: 0.5, unit: '/a', ...practice } } },
    'growth.rate',
    '0.47 a year (0.32 to 0.5 a year, central 80 %)',
  ],
  ['times a day', { feeding: { feedings: { value: 3, unit: '/d', ...practice } } }, 'feeding.feedings', '3 a day'],
  ['a word', { shape: { gapeClass: { value: 'engulfs', ...practice } } }, 'shape.gapeClass', 'swallows whole'],
  ['yes', { feeding: { cleans: { value: true, ...practice } } }, 'feeding.cleans', 'yes'],
  ['no', { feeding: { cleans: { value: false, ...practice } } }, 'feeding.cleans', 'no'],
  ['no change of sex', { lifeCycle: { sexChange: { value: 'none', ...practice } } }, 'lifeCycle.sexChange', 'does not change'],
  ['a number', { needs: { careTier: { value: 2, ...practice } } }, 'needs.careTier', '2'],
  [
    'a list',
    { needs: { provisions: { list: ['tight-lid', 'dim-light'], ...practice } } },
    'needs.provisions',
    'a lid without gaps and dim light',
  ],
  [
    'foods, some small',
    { feeding: { eats: { foods: ['shrimps', 'worms'], small: ['shrimps'], ...practice } } },
    'feeding.eats',
    'shrimps and worms, only small ones of shrimps',
  ],
  [
    'company',
    { conduct: { company: { kind: 'group', least: 3, dwindles: true, ...practice } } },
    'conduct.company',
    'in a group, at least 3, groups shrink in a tank',
  ],
  ['a litre of rock', { conduct: { rockClaim: { value: 8, unit: 'L', at: 'adult', ...practice } } }, 'conduct.rockClaim', '8 L'],
  [
    'harm',
    { conduct: { harms: [{ how: 'eats', what: ['crabs'], harm: 'kills', often: 'at-times', upToShare: 0.15, ...practice }] } },
    'conduct.harms',
    'eats, crabs, kills, at times, up to this share of its own length 0.15',
  ],
  [
    'weight',
    { size: { weight: { a: 0.0112202, b: 3.09, lengthType: 'TL', ...practice } } },
    'size.weight',
    'factor 0.01122, exponent 3.09, total length',
  ],
  [
    'a partner',
    { needs: { partners: [{ species: 'vigilia-secunda', kind: 'host', optional: true, ...practice }] } },
    'needs.partners',
    "Moll's perch, host, does without",
  ],
  [
    'food it may do without',
    { feeding: { specialist: { food: 'sponges', obligate: false, ...practice } } },
    'feeding.specialist',
    'sponges',
  ],
])('%s', (_, more, field, expected) => expect(said(more, field)).toBe(expected));

test('steps of pugnacity are said in words beside their numbers', () => {
  const pugnacity = { ownKind: 0, genus: 1, kin: 2, others: 3, newcomers: 4, ...practice } as const;
  expect(said({ conduct: { pugnacity } }, 'conduct.pugnacity')).toBe(
    'its own kind 0 (ignores), others of its genus 1 (displays), its kin 2 (chases), other animals 3 (bites), newcomers 4 (kills)',
  );
});

describe('facts', () => {
  const record = library.records.get('vigilia-prima') as SpeciesRecord;

  test('of a group are those of its fields', () => {
    const growth: SpeciesRecord['growth'] = {
      rate: { value: 1, unit: '/a', ...practice },
      asymptoticLength: { value: 9, unit: 'cm', ...practice },
    };
    expect(factsAt({ ...record, growth }, 'growth').map(({ field }) => field)).toEqual(['growth.rate', 'growth.asymptoticLength']);
  });

  test('of a list are its entries; an empty list has none', () => {
    const shelter = [{ kind: 'cave', ...practice } as const, { kind: 'hole', ...practice } as const];
    expect(factsAt({ ...record, needs: { shelter } }, 'needs.shelter')).toEqual([{ field: 'needs.shelter', entries: shelter }]);
    expect(factsAt({ ...record, needs: { shelter: [] } }, 'needs.shelter')).toEqual([]);
  });

  test('that are not on record are none', () => {
    expect(factsAt(record, 'shape.lowerJaw')).toEqual([]);
    expect(factsAt(record, 'kinGroup')).toEqual([]);
  });
});
