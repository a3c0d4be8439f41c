import { expect, test } from 'vitest';
import type { Catalogue } from './catalogue.js';
import { joined, sayLabel, sayThreshold } from './labels.js';

const catalogue: Catalogue = {
  language: 'en',
  messages: {
    'slot.gap': () => 'time between batches',
    'slot.escape.gap': () => 'gap in the cover',
    'threshold.squeeze': () => 'squeeze of the prey',
    'threshold.gape.smallShare': () => 'easy mouthful',
    'depth.joint': ({ one, other }) => `${one}; ${other}`,
  },
};

test('a slot has one label, save where a rule calls it otherwise', () => {
  expect(sayLabel(catalogue, 'entry-gap', 'gap')).toBe('time between batches');
  expect(sayLabel(catalogue, 'escape', 'gap')).toBe('gap in the cover');
});

test('so has a threshold', () => {
  expect(sayThreshold(catalogue, 'gape', 'squeeze')).toBe('squeeze of the prey');
  expect(sayThreshold(catalogue, 'gape', 'smallShare')).toBe('easy mouthful');
});

test("names of other people's rules are taken apart into words", () => {
  expect(sayLabel(catalogue, 'vendor/glow', 'hoursOfLight')).toBe('hours of light');
  expect(sayThreshold(catalogue, 'vendor/glow', 'mostLux')).toBe('most lux');
});

test.each([
  [[], ''],
  [['a'], 'a'],
  [['a', 'b', 'c'], 'a; b; c'],
])('%o in one line', (items, line) => expect(joined(catalogue, items)).toBe(line));
