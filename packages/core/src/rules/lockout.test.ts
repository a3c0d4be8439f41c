import type { Introduction, Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, exact, newcomer, onlyVerdict, PEACEFUL, recordWith, resident, situationWith, TANK } from '../../tests/support/scene.js';
import { lockout } from './lockout.js';

type Conduct = NonNullable<SpeciesRecord['conduct']>;

interface Traits {
  readonly newcomers?: number | 'untold';
  readonly claimL?: number | 'untold';
  readonly company?: 'pair' | 'any';
  readonly way?: NonNullable<Conduct['wayOfLiving']>['value'];
}

/** A fish that has done with growing. */
const fish = (
  id: string,
  { newcomers = 0, claimL = 4, company = 'any', way = 'perches-on-rock' }: Traits = {},
  more: Partial<SpeciesRecord> = {},
): SpeciesRecord =>
  recordWith(id, {
    kinGroup: { value: id, basis: 'practice' },
    growth: { asymptoticLength: exact(1, 'cm'), rate: exact(0.5, '/a') },
    conduct: {
      ...(newcomers === 'untold' ? {} : { pugnacity: { ...PEACEFUL, newcomers } }),
      ...(claimL === 'untold' ? {} : { rockClaim: exact(claimL, 'L') }),
      wayOfLiving: { value: way, basis: 'practice' },
      company: { kind: company, basis: 'practice' },
    },
    ...more,
  });

const enters = (lengthCm = 10, more: Partial<Introduction> = {}): Introduction => ({
  date: '2027-04-01',
  animals: [newcomer('vicinus-primus', lengthCm)],
  ...more,
});

/** A resident of 10 cm, and a newcomer a month on, with 20 L of rock. */
const scene = (more: Partial<Situation> = {}): Situation =>
  situationWith({ residents: [resident('unus-primus', 10)], introductions: [enters()], ...more });

const verdict = (records: readonly SpeciesRecord[], situation = scene()): string => onlyVerdict(checkBy(lockout, situation, records));

const comer = fish('vicinus-primus');

describe('lockout', () => {
  it.each([
    [1, 17, 'inapplicable'],
    [2, 16, 'passed'],
    [2, 17, 'failed warning lockout.noRock'],
    [3, 17, 'failed error lockout.noRock'],
  ])('one that treats newcomers with %i holds %i of 20 L, and the newcomer wants 4: %s', (newcomers, claimL, said) => {
    expect(verdict([fish('unus-primus', { newcomers, claimL }), comer])).toBe(said);
  });

  it('names early settlers as such, and says how much is missing', () => {
    const records = [fish('unus-primus', { newcomers: 3, claimL: 10 }), fish('unus-secundus', { newcomers: 2, claimL: 8 }), comer];
    const situation = scene({ introductions: [{ date: '2027-03-10', animals: [newcomer('unus-secundus', 10)] }, enters()] });
    const [finding] = checkBy(lockout, situation, records).findings;
    expect(finding).toMatchObject({
      key: 'lockout:newcomer=vicinus-primus,settler=unus-primus,holder=unus-secundus',
      level: 'error',
      when: '2027-04-01',
      basis: 'practice',
      data: { left: { value: 2, unit: 'L' }, wanted: { value: 4, unit: 'L' }, missingRock: { value: 2, unit: 'L' } },
    });
  });

  it('what the peaceful hold counts by likeness', () => {
    const kinGroup = { value: 'kindred', basis: 'practice' } as const;
    const records = (claimL: number): SpeciesRecord[] => [
      fish('unus-primus', { newcomers: 2, claimL: 8 }),
      fish('unus-secundus', { claimL }, { kinGroup }),
      fish('vicinus-primus', {}, { kinGroup }),
    ];
    const situation = scene({ residents: [resident('unus-primus', 10), resident('unus-secundus', 10)] });
    expect(verdict(records(16), situation)).toBe('passed');
    expect(verdict(records(18), situation)).toBe('failed warning lockout.noRock');
  });

  it('one that comes in much larger is not kept off', () => {
    expect(verdict([fish('unus-primus', { newcomers: 3, claimL: 19 }), comer], scene({ introductions: [enters(20)] }))).toBe(
      'inapplicable',
    );
  });

  it.each([
    ['the rock is re-laid', { kind: 'rock-relaid', date: '2027-04-01' }],
    ['a divider stands', { kind: 'tank-divided', date: '2027-03-20', until: '2027-04-10' }],
  ] as const)('nobody is kept off on a day on which %s', (_, event) => {
    expect(verdict([fish('unus-primus', { newcomers: 3, claimL: 19 }), comer], scene({ events: [event] }))).toBe('inapplicable');
  });

  it('those that come in on the same day, or have left, hold nothing', () => {
    const records = [fish('unus-primus', { newcomers: 3, claimL: 19 }), comer];
    const together = scene({
      residents: [],
      introductions: [{ date: '2027-04-01', animals: [newcomer('unus-primus', 10), newcomer('vicinus-primus', 10)] }],
    });
    expect(verdict(records, together)).toBe('inapplicable');
    expect(verdict(records, scene({ events: [{ kind: 'animal-removed', animal: 'unus-primus', date: '2027-03-20' }] }))).toBe(
      'inapplicable',
    );
  });

  it('a mate is let in, a shrimp is left alone', () => {
    const mates = scene({ residents: [resident('vicinus-primus', 10, { id: 'mate' })] });
    expect(verdict([fish('vicinus-primus', { newcomers: 3, claimL: 15, company: 'pair' })], mates)).toBe('inapplicable');
    expect(verdict([fish('unus-primus', { newcomers: 3, claimL: 19 }), { ...comer, form: 'shrimp' }])).toBe('inapplicable');
  });

  it.each([
    [0, 'failed warning lockout.noShelter'],
    [1, 'failed warning lockout.noShelter'],
    [2, 'passed'],
  ])('of %i holes the resident lives in one: %s', (holes, said) => {
    const records = [fish('unus-primus', { newcomers: 2, way: 'holes-in-rock' }), fish('vicinus-primus', { way: 'holes-in-rock' })];
    expect(verdict(records, scene({ tank: { ...TANK, shelters: { holes } } }))).toBe(said);
  });

  it('tells how many shelters there are and how many are free', () => {
    const records = [fish('unus-primus', { newcomers: 2, way: 'holes-in-rock' }), fish('vicinus-primus', { way: 'holes-in-rock' })];
    const [finding] = checkBy(lockout, scene({ tank: { ...TANK, shelters: { holes: 1 } } }), records).findings;
    expect(finding?.data).toMatchObject({ shelter: { keys: ['holes'] }, there: { value: 1, unit: '1' }, free: { value: 0, unit: '1' } });
  });
});

describe('lockout where something is not known', () => {
  it.each([
    [
      'how the resident treats newcomers',
      [fish('unus-primus', { newcomers: 'untold', claimL: 19 }), comer],
      'error',
      ['conduct.pugnacity'],
    ],
    ['what the resident claims', [fish('unus-primus', { newcomers: 2, claimL: 'untold' }), comer], 'warning', ['conduct.rockClaim']],
    [
      'what the newcomer claims',
      [fish('unus-primus', { newcomers: 3 }), fish('vicinus-primus', { claimL: 'untold' })],
      'error',
      ['conduct.rockClaim'],
    ],
  ] as const)('%s', (_, records, level, keys) => {
    const [finding] = checkBy(lockout, scene(), records).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      level,
      message: 'lockout.unknown',
      data: { missing: { keys } },
      subjects: [{ role: 'newcomer' }, { role: 'settler' }],
    });
  });

  it('the rock', () => {
    const { rock: _, ...bare } = TANK;
    const [finding] = checkBy(lockout, scene({ tank: bare }), [fish('unus-primus', { newcomers: 2 }), comer]).findings;
    expect(finding).toMatchObject({ message: 'lockout.unknown', level: 'warning', data: { missing: { keys: ['tank.rock'] } } });
  });

  it('the length of one of them', () => {
    const situation = scene({ residents: [{ id: 'it', species: 'unus-primus' }] });
    const [finding] = checkBy(lockout, situation, [fish('unus-primus', { newcomers: 2, claimL: 19 }), comer]).findings;
    expect(finding).toMatchObject({ message: 'lockout.unknown', data: { missing: { keys: ['length'] } } });
  });

  it('is no matter where there is room whatever they do', () => {
    expect(verdict([fish('unus-primus', { newcomers: 'untold', claimL: 10 }), comer])).toBe('passed');
  });

  it('rough figures of the rock leave a doubt', () => {
    const rough = scene({ tank: { ...TANK, rock: { envelope: { value: 20, low: 12, high: 28, unit: 'L' } } } });
    const [finding] = checkBy(lockout, rough, [fish('unus-primus', { newcomers: 2, claimL: 14 }), comer]).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'lockout.mayLackRock',
      data: { settle: { keys: ['tank.rock'] } },
    });
  });
});
