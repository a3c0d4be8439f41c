import type { PlannedIntroduction } from '@commensal/schema';
import { expect, test } from 'vitest';
import { metric, us } from '../tests/support/club.js';
import { setText } from './blocks.js';
import { daysToKeep } from './days-to-keep.js';

const reasons = [{ message: 'order.fromToday', data: {} }];
const lamp = { id: 'vigilia-prima', species: 'vigilia-prima', count: 2, length: { value: 4, unit: 'cm' } } as const;
const moll = { id: 'vigilia-secunda', species: 'vigilia-secunda', count: 1 } as const;

const days = (introductions: readonly PlannedIntroduction[], voice = metric): string[] =>
  setText(daysToKeep(voice, introductions))
    .replaceAll(/\n {4}/g, ' ')
    .split('\n');

test('nothing that goes in leaves no days', () => expect(daysToKeep(metric, [])).toEqual([]));

test('stand in the order of the calendar, whatever goes in first', () => {
  const introductions: PlannedIntroduction[] = [
    { date: '2027-04-02', latest: '2027-04-20', animals: [{ ...lamp, purchasedOn: '2027-03-03' }, moll], reasons },
    { date: '2027-05-02', animals: [{ ...moll, purchasedOn: '2027-04-02' }], reasons },
  ];
  expect(days(introductions)).toEqual([
    'Days to keep',
    '------------',
    '  - 3 March 2027: buy 2 × lamp fish (about 4 cm each) and watch them apart until 2 April 2027',
    "  - 2 April 2027: 2 × lamp fish and 1 × Moll's perch go in",
    "  - 2 April 2027: buy 1 × Moll's perch and watch it apart until 2 May 2027",
    "  - 20 April 2027: last day for 2 × lamp fish and 1 × Moll's perch to go in as planned",
    "  - 2 May 2027: 1 × Moll's perch goes in",
  ]);
});

test('name each day of purchase of one batch', () => {
  const animals = [
    { ...lamp, purchasedOn: '2027-03-20' },
    { ...moll, purchasedOn: '2027-03-03' },
  ] as const;
  expect(days([{ date: '2027-04-02', animals: [...animals], reasons }]).slice(2)).toEqual([
    "  - 3 March 2027: buy 1 × Moll's perch and watch it apart until 2 April 2027",
    '  - 20 March 2027: buy 2 × lamp fish (about 4 cm each) and watch them apart until 2 April 2027',
    "  - 2 April 2027: 2 × lamp fish and 1 × Moll's perch go in",
  ]);
});

test('what goes in on the day it is bought is not watched before', () => {
  expect(days([{ date: '2027-04-02', animals: [{ ...moll, purchasedOn: '2027-04-02' }], reasons }]).slice(2)).toEqual([
    "  - 2 April 2027: 1 × Moll's perch goes in",
  ]);
});

test('are written in the units of the reader', () => {
  expect(days([{ date: '2027-04-02', animals: [{ ...lamp, purchasedOn: '2027-03-03' }], reasons }], us)[2]).toBe(
    '  - March 3, 2027: buy 2 × lamp fish (about 1.57 in each) and watch them apart until April 2, 2027',
  );
});
