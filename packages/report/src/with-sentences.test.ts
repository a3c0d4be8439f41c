import { describe, expect, test } from 'vitest';
import { findingOf, metric, plain } from '../tests/support/club.js';
import { say } from './catalogue.js';
import { de } from './de.js';
import { en } from './en.js';
import { sayQuestion } from './question.js';
import { rulePage } from './rule-page.js';
import { sayFinding } from './sentences.js';
import { sayWord } from './voice.js';
import { withSentences } from './with-sentences.js';

const KEY = 'lanternclub/house-list.tooMany';

const club = withSentences(en, {
  [KEY]: '{animal} would make {count} of a kind; the club keeps {most}.',
  'lanternclub/house-list.often': ({ animal, count }) => `${animal} came ${Number(count) === 1 ? 'once' : `${count} times`}.`,
  'question.lanternclub/house-list': 'Does the club keep it?',
  'word.by-the-door': 'beside the door',
});

const tooMany = findingOf({
  rule: 'lanternclub/house-list',
  message: KEY,
  data: { count: { value: 8, unit: '1' }, most: { value: 6, unit: '1' } },
});

describe('a catalogue with sentences added', () => {
  test('says them, filled as ours are', () => {
    expect(plain(sayFinding({ ...metric, catalogue: club }, tooMany))).toBe('Wick would make 8 of a kind; the club keeps 6.');
    expect(say(club, 'lanternclub/house-list.often', { animal: 'Wick', count: 1 })).toBe('Wick came once.');
    expect(say(club, 'lanternclub/house-list.often', { animal: 'Wick', count: 2 })).toBe('Wick came 2 times.');
  });

  test('asks their question, in their language or in the words of the rule', () => {
    const rule = { id: 'lanternclub/house-list', question: 'Own words?' };
    expect(sayQuestion(club, rule)).toBe('Does the club keep it?');
    expect(sayQuestion(en, rule)).toBe('Own words?');
  });

  test('knows their words', () => {
    expect(sayWord({ ...metric, catalogue: club }, 'by-the-door')).toBe('beside the door');
    expect(sayWord(metric, 'by-the-door')).toBe('by the door');
  });

  test('still says ours, and leaves the catalogue it was made from as it was', () => {
    expect(club.language).toBe('en');
    expect(say(club, 'text.cautions')).toBe(say(en, 'text.cautions'));
    expect(() => say(en, KEY)).toThrow(RangeError);
  });

  test('words ours anew', () => {
    expect(say(withSentences(en, { 'text.cautions': 'Take care' }), 'text.cautions')).toBe('Take care');
  });

  test('can be added to again', () => {
    const more = withSentences(club, { 'lanternclub/tea.late': 'Too late for tea.' });
    expect([say(more, 'lanternclub/tea.late'), say(more, 'question.lanternclub/house-list')]).toEqual([
      'Too late for tea.',
      'Does the club keep it?',
    ]);
  });

  test('has their sentences on the page of their rule', () => {
    const page = rulePage(
      club,
      {
        id: 'lanternclub/house-list',
        question: '',
        scope: 'animal',
        planning: 'option',
        monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'neither', delay: 'neither' },
        needs: [],
        sources: ['house-rules'],
        defaults: {},
      },
      (key) => key,
    );
    expect(page).toMatch(/^# lanternclub\/house-list\n\nDoes the club keep it\?\n/);
    expect(page).toContain('`lanternclub/house-list.tooMany`: ‹animal› would make ‹count› of a kind; the club keeps ‹most›.');
  });
});

describe('what is missing is told', () => {
  test('a sentence: its key, and how to add it', () => {
    const voice = { ...metric, catalogue: withSentences(de, {}) };
    expect(() => sayFinding(voice, tooMany)).toThrow(
      new RangeError(
        'say: expected a key of the catalogue "de", received "lanternclub/house-list.tooMany"; add its sentence: withSentences(catalogue, { "lanternclub/house-list.tooMany": "..." })',
      ),
    );
  });

  test('a slot: its name, and those there are', () => {
    const voice = { ...metric, catalogue: withSentences(en, { [KEY]: 'Of {anima} there are {count}.' }) };
    expect(() => sayFinding(voice, tooMany)).toThrow(
      /^say: expected a slot of "lanternclub\/house-list\.tooMany" \(count, most, animal, .*\), received "anima"$/,
    );
  });

  test.each(['{n, plural, one {x} other {y}}', '{animal', 'animal}', '{an animal}', '{}'])('braces that are no slot: %s', (text) => {
    expect(() => withSentences(en, { [KEY]: text })).toThrow(
      new RangeError(`withSentences: expected no braces in "${KEY}" but those around the name of a slot, received "${text}"`),
    );
  });
});
