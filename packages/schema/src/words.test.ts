import { describe, expect, it } from 'vitest';
import { didYouMean, listWords, nearestWord, valueWords } from './words.js';

describe('valueWords', () => {
  it.each([
    ['TL', '"TL"'],
    ['say "ah"', '"say \\"ah\\""'],
    [3.5, '3.5'],
    [false, 'false'],
    [null, 'null'],
    [undefined, 'missing'],
    [[], 'an empty list'],
    [[1], 'a list'],
    [{}, 'an empty object'],
    [{ a: 1 }, 'an object'],
  ])('%j is said as %s', (value, words) => {
    expect(valueWords(value)).toBe(words);
  });

  it('cuts what is long', () => {
    expect(valueWords('x'.repeat(1000))).toBe(`"${'x'.repeat(60)}..."`);
  });
});

describe('listWords', () => {
  it('enumerates', () => {
    expect([[], ['cm'], ['cm', 'mm'], ['cm', 'mm', '[in_i]']].map((words) => listWords(words))).toEqual([
      'nothing',
      'cm',
      'cm or mm',
      'cm, mm or [in_i]',
    ]);
    expect(listWords(['value', 'low'], 'nor')).toBe('value nor low');
  });
});

describe('nearestWord', () => {
  it('finds a slip of the pen, and a wrong capital', () => {
    expect(nearestWord('lenght', ['width', 'length'])).toBe('length');
    expect(nearestWord('CM', ['mm', 'cm'])).toBe('cm');
    expect(nearestWord('hihg', ['low', 'high'])).toBe('high');
  });

  it('does not guess', () => {
    expect(nearestWord('colour', ['width', 'length'])).toBeUndefined();
    expect(nearestWord('', ['a'])).toBe('a');
    expect(nearestWord('kg', ['L', 'cm'])).toBeUndefined();
  });

  it('takes the first of two that are as near', () => {
    expect(nearestWord('cat', ['bat', 'rat'])).toBe('bat');
  });
});

describe('didYouMean', () => {
  it('asks, or says what else to do', () => {
    expect(didYouMean('perchs', ['perches'], 'Choose one.')).toBe('Did you mean "perches"?');
    expect(didYouMean(7, ['perches'], 'Choose one.')).toBe('Choose one.');
  });
});
