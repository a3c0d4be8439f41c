import { describe, expect, test } from 'vitest';
import { findingOf, metric, plain, swallowing, us } from '../tests/support/club.js';
import { figureSlots, figuresOf, type Told } from './figures.js';
import type { Voice } from './voice.js';

const lines = (told: Told, voice: Voice = metric): string[] =>
  figuresOf(voice, told).map(({ label, value }) => plain(`${label}: ${value}`));

test('the first day comes first, then the data in their order', () => {
  expect(lines(swallowing('wick', 'moll'))).toEqual([
    'first day: 14 September 2027',
    'appetite for such prey: its usual food',
    'length of the predator: 12.5 cm',
    'length of the prey: 6 cm',
    'body depth its mouth takes: 2 cm',
    'body depth of the prey: 1.5 cm',
    'last safe day: 13 September 2027',
  ]);
});

test('quantities and dates go with the units', () => {
  expect(lines(swallowing('wick', 'moll'), us)).toEqual([
    'first day: September 14, 2027',
    'appetite for such prey: its usual food',
    'length of the predator: 4.9 in',
    'length of the prey: 2.36 in',
    'body depth its mouth takes: 0.79 in',
    'body depth of the prey: 0.59 in',
    'last safe day: September 13, 2027',
  ]);
});

describe('both ends of a range', () => {
  const wants = (low: number, high: number): Told =>
    findingOf({ message: 'water.temperature', data: { wantsLow: { value: low, unit: 'Cel' }, wantsHigh: { value: high, unit: 'Cel' } } });

  test('are one figure', () => {
    expect(figureSlots(wants(24, 27))).toEqual(['wantsRange']);
    expect(lines(wants(24, 27))).toEqual(['range it wants: 24°C to 27°C']);
  });

  test('are one number where they agree', () => expect(lines(wants(25, 25))).toEqual(['range it wants: 25°C']));

  test('one end alone keeps its name', () => {
    expect(figureSlots(findingOf({ data: { wantsLow: { value: 24, unit: 'Cel' } } }))).toEqual(['wantsLow']);
  });
});

test('words, animals and species are said, counts are plain', () => {
  const told = findingOf({
    message: 'shelter.partnerMissing',
    data: {
      kind: { keys: ['host'] },
      partner: { species: 'vigilia-prima' },
      of: { animal: 'wick' },
      others: { value: 2, unit: '1' },
      missing: { keys: ['length', 'sex'] },
    },
  });
  expect(lines(told)).toEqual([
    'sort of partner: host',
    'partner: lamp fish',
    'animal it hangs on: Wick',
    'other species that would do: 2',
    'not known: the length and the sex',
  ]);
});

test('a word that means something else in one slot is said so there', () => {
  expect(lines(findingOf({ message: 'swimming-room.tooSmall', data: { tightest: { keys: ['length'] } } }))).toEqual([
    'what falls shortest: length',
  ]);
});

describe('what another figure tells as well is told once', () => {
  const lid = { keys: ['tight-lid'] };

  test('the first day where the data name it', () => {
    expect(figuresOf(metric, findingOf({ when: '2027-04-01', data: { day: { date: '2027-04-01' } } })).map(({ slot }) => slot)).toEqual([
      'day',
    ]);
    expect(figuresOf(metric, findingOf({ when: '2027-04-02', data: { day: { date: '2027-04-01' } } })).map(({ slot }) => slot)).toEqual([
      'when',
      'day',
    ]);
  });

  test('what is needed where all of it is lacking', () => {
    const slots = (lacking: string[]): string[] =>
      figuresOf(metric, findingOf({ message: 'care-tier.above', data: { needed: lid, lacking: { keys: lacking } } })).map(
        ({ slot }) => slot,
      );
    expect(slots(['tight-lid'])).toEqual(['lacking']);
    expect(slots(['sand-to-sift'])).toEqual(['needed', 'lacking']);
  });

  test('equal figures of other sorts both stay', () => {
    const data = { preyLength: { value: 2, unit: 'cm' }, preyDepth: { value: 2, unit: 'cm' } };
    expect(figuresOf(metric, findingOf({ data }))).toHaveLength(2);
  });
});
