import { describe, expect, it } from 'vitest';
import { converted, sameNumber } from './decimal.js';

describe('sameNumber', () => {
  it.each([
    ['2.5', '2.50'],
    ['2.5', '25e-1'],
    ['2500', '2.5E+3'],
    ['0', '-0.00e7'],
    ['1e-7', '0.0000001'],
  ])('%s is %s', (one, other) => expect(sameNumber(one, other)).toBe(true));

  it.each([
    ['2.5', '-2.5'],
    ['2.5', '25'],
    ['2.5', '2.50000000000000000001'],
    ['1', '10'],
    ['0', '1e-400'],
  ])('%s is not %s', (one, other) => expect(sameNumber(one, other)).toBe(false));
});

describe('converted', () => {
  it('rounds once, to the nearest: a number just beyond half way goes up', () => {
    // 2^53 + 1 lies half way between two doubles and goes to the even one; a hair more goes to the other.
    expect(converted('9007199254740993', { times: 1n, over: 1n })).toBe('9007199254740992');
    expect(converted('9007199254740993.000000000000000000000000000001', { times: 1n, over: 1n })).toBe('9007199254740994');
  });

  it('takes numbers with exponents, negative ones and zero', () => {
    expect(converted('2.54e2', { times: 1n, over: 10n })).toBe('25.4');
    expect(converted('-40', { minus: 32n, times: 5n, over: 9n })).toBe('-40');
    expect(converted('0', { times: 1n, over: 10n })).toBe('0');
  });

  it('leaves numbers alone that would fill the memory', () => {
    expect(converted('1e999999999', { times: 1n, over: 10n })).toBeUndefined();
    expect(converted('1e-999999999', { times: 1n, over: 10n })).toBeUndefined();
  });
});
