import { describe, expect, test } from 'vitest';
import { metric, plain, us, voiceIn } from '../tests/support/club.js';
import { capital, dataSlots, sayAnimal, sayDate, sayList, sayQuantity, saySpecies, sayWord } from './voice.js';

describe('quantities', () => {
  test.each([
    [12, 'cm', '12 cm', '4.7 in'],
    [1.4, 'cm', '1.4 cm', '0.55 in'],
    [240, 'L', '240 L', '63.4 gal'],
    [1006.4, 'L', '1,006.4 L', '265.9 gal'],
    [10, 'kg', '10 kg', '22 lb'],
    [24.5, 'Cel', '24.5°C', '76.1°F'],
    [-1, 'Cel', '-1°C', '30.2°F'],
    [1, 'd', '1 day', '1 day'],
    [28, 'd', '28 days', '28 days'],
    [60, 'a', '60 years', '60 years'],
    [34.5, '1', '34.5', '34.5'],
    [8.25, '[pH]', '8.25', '8.25'],
    [0.0038, 'mg/L', '0.0038 mg/L', '0.0038 mg/L'],
    [190, 'mg/d', '190 mg', '190 mg'],
    [1.1, 'g', '1.1 g', '1.1 g'],
    [0.055, 'm2', '0.055 m²', '0.055 m²'],
  ])('%s %s is "%s" in metric and "%s" in US units', (value, unit, inMetric, inUs) => {
    expect(plain(sayQuantity(metric, value, unit))).toBe(inMetric);
    expect(plain(sayQuantity(us, value, unit))).toBe(inUs);
  });

  test('the number and its unit stay on one line', () => expect(sayQuantity(metric, 12, 'cm')).toBe('12\u00A0cm'));
});

describe('dates', () => {
  test('are written the way that goes with the units', () => {
    expect(plain(sayDate(metric, '2027-03-01'))).toBe('1 March 2027');
    expect(plain(sayDate(us, '2027-03-01'))).toBe('March 1, 2027');
  });

  test('are the day that was given, in any time zone', () => {
    expect(plain(sayDate(metric, '2028-02-29'))).toBe('29 February 2028');
    expect(plain(sayDate(metric, '2027-12-31'))).toBe('31 December 2027');
  });
});

test.each([
  [['one'], 'one', 'one'],
  [['one', 'two'], 'one and two', 'one and two'],
  [['one', 'two', 'three'], 'one, two and three', 'one, two, and three'],
])('a list of %j', (items, british, american) => {
  expect(sayList(metric, items)).toBe(british);
  expect(sayList(us, items)).toBe(american);
});

describe('an animal', () => {
  test('with a name is called by it', () => expect(sayAnimal(metric, 'wick')).toBe('Wick'));

  test('that is one of a group with a name has its number', () => expect(sayAnimal(metric, 'choir#2')).toBe('Choir #2'));

  test('without a name is called by its species', () => {
    const about = { ...voiceAbout([{ id: 'a', species: 'vigilia-prima' }]) };
    expect(sayAnimal(about, 'a')).toBe('the lamp fish');
  });

  test('of a species whose name begins with its owner has no article', () => expect(sayAnimal(metric, 'moll')).toBe("Moll's perch"));

  test('of a species without a common name has the scientific one, without an article', () => {
    expect(sayAnimal(voiceAbout([{ id: 'a', species: 'vigilia-tertia' }]), 'a')).toBe('Vigilia tertia');
  });

  test('that is one of several without a name is told apart by its id', () => {
    const voice = voiceAbout([
      { id: 'left', species: 'vigilia-prima' },
      { id: 'right', species: 'vigilia-prima' },
    ]);
    expect([sayAnimal(voice, 'left'), sayAnimal(voice, 'right')]).toEqual(['the lamp fish “left”', 'the lamp fish “right”']);
  });

  test('that left a group is told apart from the rest', () => {
    expect(sayAnimal(voiceAbout([{ id: 'trio', species: 'vigilia-prima', count: 3 }]), 'trio#2')).toBe('the lamp fish “trio#2”');
  });
});

const voiceAbout = (residents: { id: string; species: string; count?: number }[]) =>
  voiceIn('metric', {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: '2027-03-01',
    tank: { water: { value: 100, unit: 'L' } },
    residents,
  });

test('a species within a sentence', () => {
  expect(saySpecies(metric, 'vigilia-prima')).toBe('the lamp fish');
  expect(saySpecies(metric, 'vigilia-secunda')).toBe("Moll's perch");
});

test.each([
  ['shape.lowerJaw', 'the mouth'],
  ['tight-lid', 'a lid without gaps'],
  ['muraenidae', 'Muraenidae'],
  ['dwarf-angels', 'dwarf angels'],
])('the word %s reads "%s"', (word, text) => expect(sayWord(metric, word)).toBe(text));

describe('the slots of data', () => {
  test('a length in the units of the reader', () => {
    expect(dataSlots(metric, { limit: { value: 3, unit: 'cm' } })).toEqual({ limit: '3\u00A0cm', limitKey: 'some' });
    expect(dataSlots(us, { limit: { value: 3, unit: 'cm' } })).toEqual({ limit: '1.18\u00A0in', limitKey: 'some' });
  });

  test('an amount that reads as 0 can be said otherwise, in the units of the reader', () => {
    const left = { left: { value: 0.1, unit: 'L' } };
    expect(dataSlots(metric, left)).toEqual({ left: '0.1\u00A0L', leftKey: 'some' });
    expect(dataSlots(us, left)).toEqual({ left: '0\u00A0gal', leftKey: 'zero' });
  });

  test('a count stays a number, so that plurals can be chosen by it', () => {
    expect(dataSlots(metric, { count: { value: 2, unit: '1' } })).toEqual({ count: 2 });
  });

  test('a share is text', () => expect(dataSlots(metric, { share: { value: 0.5, unit: '1' } })).toEqual({ share: '0.5' }));

  test('a day, an animal, a species', () => {
    expect(dataSlots(us, { day: { date: '2027-03-01' }, of: { animal: 'wick' }, kind: { species: 'vigilia-prima' } })).toEqual({
      day: 'March\u00A01, 2027',
      of: 'Wick',
      kind: 'lamp fish',
    });
  });

  test('words as a list, and the first of them as it is for choosing', () => {
    expect(dataSlots(metric, { missing: { keys: ['shape.lowerJaw', 'growth'] } })).toEqual({
      missing: 'the mouth and the growth',
      missingKey: 'shape.lowerJaw',
    });
    expect(dataSlots(metric, { missing: { keys: [] } })).toMatchObject({ missingKey: 'none' });
  });

  test('a low and a high end make a range, or one number where they agree', () => {
    const ends = (low: number, high: number) => ({ wantsLow: { value: low, unit: 'Cel' }, wantsHigh: { value: high, unit: 'Cel' } });
    expect(dataSlots(metric, ends(24, 26))).toMatchObject({ wantsRange: '24°C to 26°C' });
    expect(dataSlots(metric, ends(24, 24))).toMatchObject({ wantsRange: '24°C' });
  });
});

test('a sentence starts with a capital', () => {
  expect(capital('the lamp fish')).toBe('The lamp fish');
  expect(capital('élan')).toBe('Élan');
  expect(capital('')).toBe('');
});
