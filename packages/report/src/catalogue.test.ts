import { expect, test } from 'vitest';
import { type Catalogue, has, say } from './catalogue.js';

const catalogue: Catalogue = { language: 'en', messages: { greet: ({ name }) => `Hello ${name}.` } };

test('a sentence is filled', () => expect(say(catalogue, 'greet', { name: 'Wick' })).toBe('Hello Wick.'));

test('a slot that is not filled reads none', () => {
  expect(say(catalogue, 'greet')).toBe('Hello none.');
  expect(say(catalogue, 'greet', { other: 'x' })).toBe('Hello none.');
});

test('an empty slot stays empty', () => expect(say(catalogue, 'greet', { name: '' })).toBe('Hello .'));

test('a missing key throws and says which', () => {
  expect(() => say(catalogue, 'part')).toThrow(
    new RangeError(
      'say: expected a key of the catalogue "en", received "part"; add its sentence: withSentences(catalogue, { "part": "..." })',
    ),
  );
});

test('what every object has is no key', () => {
  expect(() => say(catalogue, 'toString')).toThrow(RangeError);
  expect(has(catalogue, 'toString')).toBe(false);
});

test('has tells which keys there are', () => expect([has(catalogue, 'greet'), has(catalogue, 'part')]).toEqual([true, false]));
