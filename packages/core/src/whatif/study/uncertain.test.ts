import { describe, expect, it } from 'vitest';
import { newcomer, range, recordWith, resident, situationWith, swallower } from '../../../tests/support/scene.js';
import { libraryOf } from '../../stock/library.js';
import { studyOf } from './study.js';
import { uncertainFigures } from './uncertain.js';

const NONE: ReadonlySet<string> = new Set();

const library = libraryOf([
  recordWith('unus-primus', { growth: { asymptoticLength: range(8, 14, 'cm'), rate: range(0.3, 0.8, '/a') } }),
  swallower('duo-primus', {
    shape: { gapeWidth: { ...range(0.2, 0.3, '1'), per: 'SL' }, gapeClass: { value: 'engulfs', basis: 'practice' } },
  }),
  recordWith('tres-primus'),
]);
const situation = situationWith({
  residents: [resident('duo-primus', 10), { id: 'rough', species: 'unus-primus', length: { low: 4, high: 6, unit: 'cm' } }],
  introductions: [{ date: '2027-05-01', animals: [newcomer('tres-primus', 5)] }],
});
const namesOf = (...args: Parameters<typeof uncertainFigures>): string[] => uncertainFigures(...args).map(({ name }) => name);

describe('figures with a band', () => {
  it('are those of the sorts asked for, species by id, and what has no width is none', () => {
    expect(namesOf(situation, library, ['growth'], [], NONE)).toEqual(['linf_unus_primus', 'rate_unus_primus']);
    expect(namesOf(situation, library, ['shape'], [], NONE)).toEqual(['mouth_duo_primus']);
    expect(namesOf(situation, library, ['lengths'], [], NONE)).toEqual(['length_rough']);
    expect(namesOf(situation, library, [], [], NONE)).toEqual([]);
  });

  it('come of species as well that a variable may bring in, and leave out what a variable sets', () => {
    const alone = situationWith({ residents: [resident('tres-primus', 10)] });
    expect(namesOf(alone, library, ['growth'], [], NONE)).toEqual([]);
    expect(namesOf(alone, library, ['growth'], ['unus-primus'], NONE)).toEqual(['linf_unus_primus', 'rate_unus_primus']);
    expect(namesOf(situation, library, ['growth'], [], new Set(['/species/unus-primus/growth/rate']))).toEqual(['linf_unus_primus']);
  });

  it('name the place, the unit and the band; a rate goes with its asymptotic length', () => {
    const [asymptote, rate] = uncertainFigures(situation, library, ['growth'], [], NONE);
    expect(asymptote).toMatchObject({
      at: '/species/unus-primus/growth/asymptoticLength',
      unit: 'cm',
      band: { low: 8, centre: 11, high: 14 },
    });
    expect(rate?.jointlyWith).toEqual({ name: 'linf_unus_primus', band: asymptote?.band });
  });
});

it('ids that differ in signs alone would share a column, and are refused', () => {
  const rough = { low: 4, high: 6, unit: 'cm' as const };
  const { study, problems } = studyOf(
    {
      $schema: 'https://commensal.example/schema/1.0/study.schema.json',
      situation: situationWith({
        residents: [
          { id: 'one-a', species: 'unus-primus', length: rough },
          { id: 'one.a', species: 'unus-primus', length: rough },
        ],
      }),
      uncertain: ['lengths'],
      design: { kind: 'monte-carlo', scenarios: 4 },
      seed: 1,
      outputs: [{ kind: 'outcome', rule: 'gape' }],
    },
    library,
  );
  expect(study).toBeUndefined();
  expect(problems).toEqual([
    {
      code: 'duplicate-id',
      pointer: '/uncertain',
      found: '"length_one_a" would be the column of /situation/residents/0/length and of /situation/residents/1/length',
      allowed: 'ids that differ in letters or digits, not in other signs alone',
      fix: 'Give one of the two another id.',
    },
  ]);
});

it('a variable that is called like a column of the outputs is refused', () => {
  const { problems } = studyOf(
    {
      $schema: 'https://commensal.example/schema/1.0/study.schema.json',
      situation,
      vary: [{ name: 'gape_outcome', at: ['/situation/tank/water'], unit: 'L', over: { kind: 'uniform', low: 100, high: 200 } }],
      design: { kind: 'monte-carlo', scenarios: 4 },
      seed: 1,
      outputs: [{ kind: 'outcome', rule: 'gape' }],
    },
    library,
  );
  expect(problems.map(({ code, pointer }) => `${code} ${pointer}`)).toEqual(['duplicate-id /vary/0/name']);
});
