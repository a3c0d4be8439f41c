import { describe, expect, it } from 'vitest';
import { lettersApart, nearMiss } from './near-miss.js';

describe('letters apart', () => {
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['gape', 'gape', 0],
    ['', 'gape', 4],
    ['gape', '', 4],
    ['', '', 0],
  ])('%s and %s: %i', (one, other, apart) => {
    expect(lettersApart(one, other)).toBe(apart);
    expect(lettersApart(other, one)).toBe(apart);
  });
});

describe('a near miss', () => {
  it.each([
    ['gap', 'gape'],
    ['watre', 'water'],
    ['Gape', 'gape'],
    ['comp', 'company'],
  ])('of %s is %s', (word, meant) => expect(nearMiss(word, ['water', 'gape', 'company'])).toBe(meant));

  it('is none where less than half is right, or nothing is known', () => {
    expect(nearMiss('zzz', ['water', 'gape'])).toBeUndefined();
    expect(nearMiss('gape', [])).toBeUndefined();
    expect(nearMiss('co', ['company'])).toBeUndefined();
    expect(nearMiss('', ['gape'])).toBeUndefined();
  });

  it('of two as near is the first', () => expect(nearMiss('ab', ['ac', 'ad'])).toBe('ac'));
});
