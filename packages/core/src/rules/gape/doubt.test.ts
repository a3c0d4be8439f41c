import type { Finding, Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, exact, range, recordWith, resident, situationWith } from '../../../tests/support/scene.js';
import { gape } from './gape.js';

type Shape = NonNullable<SpeciesRecord['shape']>;

const ENGULFS: Shape['gapeClass'] = { value: 'engulfs', basis: 'practice' };
const mouthOf = (shape: Partial<Shape>): Partial<SpeciesRecord> => ({ shape: { gapeClass: ENGULFS, ...shape } });
const wide = (value: number, times: number, unit: '1' = '1') => ({ ...range(value / times, value * times, unit), value });

/** Fully grown at 20 cm of total, 16 cm of standard length; unless told otherwise its mouth passes 4 cm for sure. */
const predator = (more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith('lupus-primus', {
    size: { totalPerStandard: exact(1.25, '1') },
    growth: { asymptoticLength: exact(20, 'cm'), rate: exact(0.5, '/a') },
    feeding: { fishEating: { value: 'habitual', basis: 'practice' } },
    ...mouthOf({ gapeWidth: exact(0.25, '1') }),
    ...more,
  });

/** Half of its 9 cm deep for sure, unless told otherwise: a little too deep, save when squeezed. */
const prey = (more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith('agnus-primus', {
    size: { totalPerStandard: exact(1.25, '1') },
    growth: { asymptoticLength: exact(9, 'cm'), rate: exact(0.5, '/a') },
    shape: { bodyDepth: exact(0.625, '1') },
    ...more,
  });

const told = (one: SpeciesRecord, other: SpeciesRecord, more: Partial<Situation> = {}): Finding => {
  const situation = situationWith({ residents: [resident('lupus-primus', 20), resident('agnus-primus', 9)], ...more });
  const [finding] = checkBy(gape, situation, [one, other]).findings;
  expect(finding?.outcome).toBe('cantTell');
  return finding as Finding;
};
const doubt = ({ data }: Finding): unknown[] => [data.inDoubt?.keys?.[0], data.settle?.keys?.[0], data.of?.animal];

describe('what a doubt hangs on, and what would settle it: the greatest of the errors', () => {
  it.each([
    ['a measured open mouth', mouthOf({ gapeWidth: wide(0.25, 1.2) }), {}, ['mouth', 'shape.swallowTrial', 'lupus-primus']],
    ['a jaw', mouthOf({ lowerJaw: wide(0.2, 1.2) }), {}, ['mouth', 'shape.gapeWidth', 'lupus-primus']],
    [
      'a belly that stretches',
      { shape: { gapeClass: { value: 'distensible', basis: 'practice' } } },
      { shape: { bodyDepth: exact(1.2, '1') } },
      ['mouth', 'shape.swallowTrial', 'lupus-primus'],
    ],
    ['the standard length', { size: { totalPerStandard: wide(1.25, 1.1) } }, {}, ['length', 'size.totalPerStandard', 'lupus-primus']],
    ['the body', {}, { shape: { bodyDepth: wide(0.625, 1.2) } }, ['body', 'shape.bodyDepth', 'agnus-primus']],
    [
      'raised spines',
      {},
      { shape: { bodyDepth: exact(0.3, '1'), defendedDepth: wide(0.625, 1.2) } },
      ['body', 'shape.defendedDepth', 'agnus-primus'],
    ],
    ['nothing but the squeezing', {}, {}, ['mouth', 'shape.swallowTrial', 'lupus-primus']],
  ] as const)('%s', (_, ofPredator, ofPrey, expected) => {
    expect(doubt(told(predator(ofPredator as Partial<SpeciesRecord>), prey(ofPrey as Partial<SpeciesRecord>)))).toEqual(expected);
  });

  it.each([
    ['lupus-primus', 18, 22],
    ['agnus-primus', 8, 10],
  ])('a rough reading of %s', (id, low, high) => {
    const rough = (species: string, cm: number) =>
      resident(species, cm, species === id ? { length: { low, high, value: cm, unit: 'cm' } } : {});
    const found = told(
      predator({ growth: { asymptoticLength: exact(10, 'cm'), rate: exact(0.5, '/a') } }),
      prey({ growth: { asymptoticLength: exact(5, 'cm'), rate: exact(0.5, '/a') } }),
      {
        residents: [rough('lupus-primus', 20), rough('agnus-primus', 9)],
      },
    );
    expect(doubt(found)).toEqual(['length', 'length', id]);
  });

  it('a newcomer of which nobody has said how long it will be', () => {
    const entering = prey({ size: { totalPerStandard: exact(1.25, '1'), entry: range(7, 11, 'cm') } });
    const found = told(predator(), entering, {
      residents: [resident('lupus-primus', 20)],
      introductions: [{ date: '2027-03-01', animals: [{ species: 'agnus-primus' }] }],
    });
    expect(doubt(found)).toEqual(['length', 'size.entry', 'agnus-primus']);
  });

  it('growth, on the day on which the doubt begins', () => {
    const grows = predator({ growth: { asymptoticLength: { ...range(14, 30, 'cm'), value: 20 }, rate: exact(0.5, '/a') } });
    const found = told(grows, prey(), { residents: [resident('lupus-primus', 10), resident('agnus-primus', 9)] });
    expect(found.when).not.toBe('2027-03-01');
    expect(doubt(found)).toEqual(['length', 'growth', 'lupus-primus']);
  });

  it('full size, where growth is slow', () => {
    const grows = predator({ growth: { asymptoticLength: { ...range(17, 23, 'cm'), value: 20 }, rate: exact(0.03, '/a') } });
    const found = told(grows, prey(), { residents: [resident('lupus-primus', 10), resident('agnus-primus', 9)] });
    expect(found.message).toBe('gape.mayFitAtFullSize');
    expect(doubt(found)).toEqual(['length', 'growth.asymptoticLength', 'lupus-primus']);
  });
});

describe('slender prey between 0.70 and 1.0 of the standard length of the swallower', () => {
  const slender = (times = 1): SpeciesRecord =>
    prey({
      shape: { bodyDepth: exact(0.2, '1') },
      growth: { asymptoticLength: { ...range(13 / times, 13 * times, 'cm'), value: 13 }, rate: exact(0.5, '/a') },
    });

  it('no measurement would tell; what counts is the length of the prey', () => {
    const found = told(predator(), slender(), { residents: [resident('lupus-primus', 20), resident('agnus-primus', 13)] });
    expect(doubt(found)).toEqual(['longBody', 'length', 'agnus-primus']);
  });

  it('where a rough length may put it on either side, that length', () => {
    const rough = resident('agnus-primus', 13, { length: { low: 10, high: 16, value: 13, unit: 'cm' } });
    const found = told(predator(), slender(), { residents: [resident('lupus-primus', 20), rough] });
    expect(doubt(found)).toEqual(['length', 'length', 'agnus-primus']);
  });
});
