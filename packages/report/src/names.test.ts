import { describe, expect, test } from 'vitest';
import { library, situation } from '../tests/support/club.js';
import { namesIn } from './names.js';

const names = namesIn(situation, library, 'en');

describe('the name of a species', () => {
  test('is the first common one in the language', () => expect(names.speciesName('vigilia-prima')).toBe('lamp fish'));

  test('is taken from another region of the language', () => {
    expect(namesIn(situation, library, 'en-US').speciesName('vigilia-prima')).toBe('lamp fish');
  });

  test('is in another language where that is asked for', () => {
    expect(namesIn(situation, library, 'de').speciesName('vigilia-prima')).toBe('Lampenfisch');
  });

  test('falls back on English, then on the scientific name', () => {
    const french = namesIn(situation, library, 'fr');
    expect(french.speciesName('vigilia-prima')).toBe('lamp fish');
    expect(french.speciesName('vigilia-tertia')).toBe('Vigilia tertia');
  });

  test('of a record that was replaced is that of its successor', () => expect(names.speciesName('vigilia-vetus')).toBe('lamp fish'));

  test('is made of the id where there is no record', () => expect(names.speciesName('vigilia-ignota')).toBe('Vigilia ignota'));
});

test('names that go without an article', () => {
  expect(names.isBare('vigilia-prima')).toBe(false);
  expect(names.isBare('vigilia-secunda')).toBe(true);
  expect(names.isBare('vigilia-tertia')).toBe(true);
});

describe('the species of an animal', () => {
  test('of a resident, and of one of a group', () => {
    expect(names.speciesOf('wick')).toBe('vigilia-prima');
    expect(names.speciesOf('choir#3')).toBe('vigilia-tertia');
  });

  test('of a newcomer without an id is its id', () => {
    const planned = namesIn(
      { ...situation, introductions: [{ date: '2027-04-01', animals: [{ species: 'vigilia-secunda' }] }] },
      library,
      'en',
    );
    expect(planned.speciesOf('vigilia-secunda')).toBe('vigilia-secunda');
  });

  test('of a planned animal whose id got a number because it was taken', () => {
    expect(names.speciesOf('vigilia-prima-2')).toBe('vigilia-prima');
  });

  test('of a planned animal with an id of its own', () => {
    expect(namesIn(situation, library, 'en', [{ id: 'new', species: 'vigilia-secunda' }]).speciesOf('new')).toBe('vigilia-secunda');
  });

  test('of nobody known is the id', () => expect(names.speciesOf('stranger')).toBe('stranger'));
});

describe('given names', () => {
  test('of residents and newcomers', () => {
    const introductions = [{ date: '2027-04-01', animals: [{ id: 'b', name: 'Bell', species: 'vigilia-prima' }] }];
    const both = namesIn({ ...situation, introductions }, library, 'en');
    expect([both.givenName('wick'), both.givenName('b'), both.givenName('moll')]).toEqual(['Wick', 'Bell', undefined]);
  });

  test('of one of a group has its number', () => expect(names.givenName('choir#1')).toBe('Choir #1'));
});

describe('what tells one unnamed animal from another', () => {
  const residents = [
    { id: 'left', species: 'vigilia-prima' },
    { id: 'right', species: 'vigilia-prima' },
    { id: 'moll', species: 'vigilia-secunda' },
  ];
  const several = namesIn({ ...situation, residents }, library, 'en', [{ id: 'vigilia-prima', species: 'vigilia-prima' }]);

  test('is nothing for the only one of its species', () => expect(several.mark('moll')).toBeUndefined());

  test('is the id for one of several', () => expect([several.mark('left'), several.mark('right')]).toEqual(['left', 'right']));

  test('is the number of one that planning called by its species', () => expect(several.mark('vigilia-prima-2')).toBe('2'));

  test('is nothing where the id says no more than the species', () => expect(several.mark('vigilia-prima')).toBeUndefined());
});
