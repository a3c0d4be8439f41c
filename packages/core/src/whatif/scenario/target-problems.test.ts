import type { Situation } from '@commensal/schema';
import { expect, it } from 'vitest';
import { newcomer, recordWith, resident, situationWith, TANK } from '../../../tests/support/scene.js';
import { libraryOf } from '../../stock/library.js';
import type { Variable } from '../study/variable.js';
import { targetProblems } from './target-problems.js';

const library = libraryOf([recordWith('unus-primus'), recordWith('duo-primus', { growth: {} })]);
const situation: Situation = situationWith({
  tank: { ...TANK, feedingsPerDay: 2, light: 'dim' },
  residents: [resident('unus-primus', 10)],
  introductions: [{ date: '2027-05-01', animals: [newcomer('duo-primus', 5)] }],
});

const variable = (at: string, more: Partial<Variable> = {}): Variable => ({
  name: 'one',
  at: [at as Variable['at'][number]],
  unit: undefined,
  words: undefined,
  whole: undefined,
  isWhole: false,
  isPositive: true,
  ...more,
});

const problemsOf = (at: string, more: Partial<Variable> = {}): string[] =>
  targetProblems(situation, library, [variable(at, more)]).map(({ code, pointer }) => `${code} ${pointer}`);

it.each([
  ['/situation/tank/water', { unit: 'L' }],
  ['/situation/tank/water', { unit: '[gal_us]' }],
  ['/situation/residents/0/length', { unit: 'mm' }],
  ['/situation/tank/feedingsPerDay', { isWhole: true }],
  ['/situation/tank/light', { words: ['dim', 'strong'] }],
  ['/situation/introductions/0/date', { unit: 'd' }],
  ['/situation/residents/0/species', { words: ['unus-primus', 'duo-primus'] }],
  ['/species/unus-primus/growth/rate', { unit: '/a' }],
  // A figure that a stand-in may take the place of need not be there.
  ['/species/duo-primus/growth/rate', { unit: '/a' }],
] as const)('a variable goes to %s', (at, more) => {
  expect(problemsOf(at, more as Partial<Variable>)).toEqual([]);
});

it.each([
  ['/situation/tank/wather', { unit: 'L' }, 'no-such-place /vary/0/at/0'],
  ['/species/tres-primus/growth/rate', { unit: '/a' }, 'unknown-species /vary/0/at/0'],
  ['/species/duo-primus/growth/speed', { unit: '/a' }, 'no-such-place /vary/0/at/0'],
  ['/situation/residents/0/species', { words: ['unus-primus', 'unus-secundus'] }, 'unknown-species /vary/0/over/words/1'],
  ['/situation/tank/water', { unit: 'kg' }, 'wrong-place /vary/0'],
  ['/situation/tank/water', {}, 'wrong-place /vary/0'],
  ['/situation/tank/water', { words: ['much'] }, 'wrong-place /vary/0'],
  ['/situation/tank/feedingsPerDay', { unit: '1' }, 'wrong-place /vary/0'],
  ['/situation/tank/feedingsPerDay', {}, 'wrong-place /vary/0'],
  ['/situation/tank/light', { unit: 'L' }, 'wrong-place /vary/0'],
  ['/situation/introductions/0/date', {}, 'wrong-place /vary/0'],
  ['/situation/introductions', { unit: 'L' }, 'wrong-place /vary/0'],
] as const)('none goes to %s with %j', (at, more, problem) => {
  expect(problemsOf(at, more as Partial<Variable>)).toEqual([problem]);
});

it('says what is there and what would do', () => {
  const [problem] = targetProblems(situation, library, [variable('/situation/tank/water', { unit: 'kg' })]);
  expect(problem).toMatchObject({
    found: 'the unit is "kg", at "/situation/tank/water" it is "L"',
    allowed: 'units must measure the same',
    fix: 'Use "L", or a unit it converts to.',
  });
});

it('what a study draws of bands by itself is not asked about', () => {
  expect(problemsOf('/species/tres-primus/shape/bodyDepth', { unit: '1', whole: { basis: 'recalled' } })).toEqual([]);
});
