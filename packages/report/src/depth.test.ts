import { expect, test } from 'vitest';
import { grounds } from '../tests/support/deep.js';
import { groundsOf, type TextOptions } from './depth.js';

test('a keeper needs no grounds, and gets none', () => {
  expect(groundsOf({})).toBeUndefined();
  expect(groundsOf({ notes: true })).toBeUndefined();
  expect(groundsOf({ depth: 'keeper', grounds })).toBeUndefined();
});

test.each(['adviser', 'researcher'] as const)('for a %s they are handed on', (depth) => {
  expect(groundsOf({ depth, grounds })).toBe(grounds);
});

test('a depth beyond the sentences without grounds is a mistake in the program', () => {
  const unchecked = { depth: 'adviser' } as TextOptions;
  expect(() => groundsOf(unchecked)).toThrow('groundsOf: expected grounds with the depth "adviser", received none');
});
