/** What is said reads as sentences, in either system of units. */
import { records } from '@commensal/species-sample';
import { describe, expect, test } from 'vitest';
import { type Saying, spoken } from './spoken.js';

const metric = spoken('metric');
const us = spoken('us');
const plain = (text: string): string => text.replaceAll('\u00A0', ' ');

describe.each([
  ['metric', metric],
  ['us', us],
])('%s', (_, sayings) => {
  const wrong = (is: (text: string, saying: Saying) => boolean): string[] => {
    expect(sayings.length).toBeGreaterThan(1000);
    return sayings.filter((saying) => is(plain(saying.text), saying)).map(({ key, text }) => `${key}: ${plain(text)}`);
  };

  test('sentences start with a capital or a number and end with a full stop', () => {
    expect(wrong((text, { phrase }) => !phrase && !/^[\p{Lu}\d].*\.$/u.test(text))).toEqual([]);
  });

  test('phrases fit into a sentence', () => expect(wrong((text, { phrase }) => phrase && /^\p{Lu}|\.$/u.test(text))).toEqual([]));

  test('nothing is left empty or without a value', () => {
    expect(wrong((text) => /\bnone\b|undefined|null|NaN|Infinity|\(\)|\[object/.test(text))).toEqual([]);
  });

  test('no operator signs and no unit codes', () => {
    expect(wrong((text) => /[<>=≤≥±~]|\[in_i\]|\[gal_us\]|\[degF\]|\[pH\]|\bCel\b/.test(text))).toEqual([]);
  });

  test('no stray spaces, doubled words or doubled stops', () => {
    expect(wrong((text) => /\s\s|\s[.,;:)]|\(\s|\.\.|,,|^\s|\s$|\b(\w+) \1\b/.test(text))).toEqual([]);
  });

  test('no id of a species stands where a name exists', () => {
    const ids = new Set(records.map(({ id }) => id));
    expect(wrong((text) => text.split(/[^a-z-]+/).some((word) => ids.has(word)))).toEqual([]);
  });

  test('no id of an animal stands by itself', () => {
    expect(wrong((text) => /(?<!“)\b(animal-\d+|tank-[a-z]+-[a-z]+|solo|h\d+)\b/.test(text))).toEqual([]);
  });

  test('no article stands before a name that begins with its owner', () => {
    expect(wrong((text) => /\b[Tt]he \p{Lu}\w*'s /u.test(text))).toEqual([]);
  });

  test('no range from a number to itself', () =>
    expect(wrong((text) => / (\d[\d.,]*\S*(?: \w+)?) to \1(?![\d.]\d)/.test(text))).toEqual([]));
});

test('US sentences hold no metric unit, metric ones no US unit', () => {
  expect(us.filter(({ text }) => /\d\s(cm|L|kg)\b|°C/u.test(text)).map(({ text }) => text)).toEqual([]);
  expect(metric.filter(({ text }) => /\d\s(in|gal|lb)\b|°F/u.test(text)).map(({ text }) => text)).toEqual([]);
});
